/** Becoming an operator: only after a tap, since a camera's preview may open the address by itself. */
import { useSignal } from '@preact/signals';
import { Outcome } from './outcome.tsx';
import type { PhoneState } from './phone-state.ts';

/** At the top of the page, while a pass came with the address. */
export function PassAsk({ page }: { page: PhoneState }) {
  const { offered, name, take } = page.pass;
  const secret = offered.value;
  const say = page.words.value.network.phone;
  if (secret === null || name.value !== null) return null;
  return (
    <section class="operate" aria-label={say.ask}>
      <p>
        <b>{say.ask}</b> {say.askSmall}
      </p>
      <div class="touch">
        <button
          type="button"
          class="strong"
          onClick={() => {
            offered.value = null;
            void take({ secret });
          }}
        >
          {say.yes}
        </button>
        <button type="button" onClick={() => (offered.value = null)}>
          {say.no}
        </button>
      </div>
    </section>
  );
}

/** At the bottom: for a phone whose camera can't read the picture. */
export function PassByCode({ page }: { page: PhoneState }) {
  const isShown = useSignal(false);
  const code = useSignal('');
  const say = page.words.value.network.phone;
  if (page.pass.name.value !== null) return null;
  return (
    <div class="operate plain">
      <Outcome page={page} />
      <button
        type="button"
        class="quiet"
        aria-expanded={isShown.value}
        onClick={() => (isShown.value = !isShown.value)}
      >
        {say.haveCode}
      </button>
      {isShown.value && (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void page.pass.take({ code: code.value });
            code.value = '';
          }}
        >
          <label>
            {say.code}{' '}
            <input
              type="text"
              name="code"
              inputMode="numeric"
              autocomplete="one-time-code"
              maxLength={7}
              value={code.value}
              onInput={(event) => (code.value = event.currentTarget.value)}
            />
          </label>
          <button type="submit" class="strong">
            {say.takeUp}
          </button>
        </form>
      )}
    </div>
  );
}
