/** What the readings say of the rig's wiring: it stops nothing, and whoever meant it says so. */
import { isPlayed } from '../model/bench.ts';
import { shownFinding } from '../model/rig-findings.ts';
import type { PageState } from './page-state.ts';

export function RigFinding({ page }: { page: PageState }) {
  // One thing at a time: the next one follows when this is put right.
  const [finding] = page.bench.experiment.value.findings;
  const words = page.words.value;
  if (finding === undefined || isPlayed(page.bench)) return null;
  const { kind, channel } = finding;
  const { seen, why, todo } = shownFinding(finding, words);
  return (
    <section class="rig-finding" aria-label={words.rig.heading} data-finding={kind}>
      <p>
        <b>{seen}</b> {why} {todo}{' '}
        <button
          type="button"
          class="underlined"
          onClick={() => void page.operator.say({ say: 'accept-finding', kind, channel })}
        >
          {words.rig.meant}
        </button>
      </p>
    </section>
  );
}
