/** What the readings say of the rig's wiring: it stops nothing, and whoever meant it says so. */
import { isPlayed } from '../model/bench.ts';
import { shownFinding } from '../model/rig-findings.ts';
import type { PageState } from './page-state.ts';

export function RigFindings({ page }: { page: PageState }) {
  const { findings } = page.bench.experiment.value;
  const words = page.words.value;
  if (findings.length === 0 || isPlayed(page.bench)) return null;
  return (
    <section class="rig-findings" aria-label={words.rig.heading}>
      {findings.map((finding) => {
        const { kind, channel } = finding;
        const { seen, why, todo } = shownFinding(finding, words);
        return (
          <p key={`${kind} ${channel}`} data-finding={kind}>
            <b>{seen}</b> {why} {todo}{' '}
            <button
              type="button"
              class="underlined"
              onClick={() => void page.operator.say({ say: 'accept-finding', kind, channel })}
            >
              {words.rig.meant}
            </button>
          </p>
        );
      })}
    </section>
  );
}
