/** What can honestly be said now, and the line about keys. */
import { sentenceOf } from '../model/sentence.ts';
import type { PageState } from './page-state.ts';

export function SaidNow({ page }: { page: PageState }) {
  const { said, small } = sentenceOf(page.bench.trials.value, page.prefixes.value.power_W);
  return (
    <section class="said" aria-label="What can be said so far">
      <p class="sentence">{said}</p>
      <p class="small soft">{small}</p>
      <KeyLine page={page} />
    </section>
  );
}

function KeyLine({ page }: { page: PageState }) {
  const { lettersOn } = page.settings;
  return (
    <p class="key-line soft">
      <button
        type="button"
        aria-pressed={lettersOn.value}
        onClick={() => (lettersOn.value = !lettersOn.value)}
      >
        {lettersOn.value ? 'Letter keys on' : 'Letter keys off'}
      </button>
      <a href="/wiring">Wiring</a>
      {lettersOn.value && (
        <span>
          <b>↑ ↓</b> choose a trial · <b>S</b> strike · <b>N</b> note · <b>X</b> other plot
        </span>
      )}
    </p>
  );
}
