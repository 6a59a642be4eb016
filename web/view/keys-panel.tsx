/** Teaching keys: a clicker's or any keyboard's. Unfolds below the band. */
import { KEY_ACTIONS, keyName, withTaught } from '../model/taught-keys.ts';
import type { KeyAction } from '../words/bench-words.ts';
import type { PageState } from './page-state.ts';
import { Unfolded } from './unfolded.tsx';

const BUILT_IN: Readonly<Record<KeyAction, string>> = { log: 'L', next: 'I', again: 'A', strike: 'S' };

export function KeysPanel({ page }: { page: PageState }) {
  const { operator, settings, words } = page;
  const { taught: say, keys } = words.value.bench;
  const { header } = words.value.top;
  const { lettersOn } = settings;
  if (!operator.keysShown.value) return null;
  return (
    <Unfolded class="keys-panel" id="keys" label={keys}>
      <p>
        <button
          type="button"
          class="underlined"
          aria-pressed={lettersOn.value}
          onClick={() => (lettersOn.value = !lettersOn.value)}
        >
          {lettersOn.value ? header.lettersOn : header.lettersOff}
        </button>
      </p>
      <p class="soft">{say.lead}</p>
      <dl>
        {KEY_ACTIONS.map((action) => (
          <div key={action}>
            <dt>{say.action[action]}</dt>
            <dd>
              <TaughtKey page={page} action={action} />
              {lettersOn.value && <span class="soft">{say.builtIn(BUILT_IN[action])}</span>}
            </dd>
          </div>
        ))}
      </dl>
    </Unfolded>
  );
}

function TaughtKey({ page, action }: { page: PageState; action: KeyAction }) {
  const { operator, settings, words } = page;
  const { pressNow, teach, forget } = words.value.bench.taught;
  const key = settings.taught.value[action];
  if (operator.teaching.value === action) return <b role="status">{pressNow}</b>;
  return (
    <>
      {key !== undefined && <b class="taught">{keyName(key)}</b>}
      <button
        type="button"
        class="underlined"
        data-teach={action}
        onClick={() => (operator.teaching.value = action)}
      >
        {teach}
      </button>
      {key !== undefined && (
        <button
          type="button"
          class="underlined"
          onClick={() => (settings.taught.value = withTaught(settings.taught.value, action, null))}
        >
          {forget}
        </button>
      )}
    </>
  );
}
