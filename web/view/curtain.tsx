/** What hides the answer until the mentor reveals it, and the answer in words for who listens. */
import { countingTrials } from '../model/sentence.ts';
import { resultText } from '../model/words.ts';
import type { FieldBox } from './field-box.ts';
import type { WatchState } from './watch-state.ts';

/** How far it reaches beyond the plot, rem. */
const BEYOND = 0.6;

export function Curtain({ page, box }: { page: WatchState; box: FieldBox }) {
  if (!page.bench.experiment.value.isCovered) return null;
  const [left, top] = [box.plotLeft - BEYOND * box.rem, box.top - box.rem];
  const [width, height] = [box.plotRight - left + BEYOND * box.rem, box.bottom - top];
  return (
    <g class="curtain">
      <rect x={left} y={top} width={width} height={height} />
      <text x={left + width / 2} y={top + height / 2} text-anchor="middle">
        {page.words.value.page.coveredPlot}
      </text>
    </g>
  );
}

/** The plot's marks as a list that is heard, not seen. */
export function MarksInWords({ page }: { page: WatchState }) {
  const words = page.words.value;
  const { experiment, trials } = page.bench;
  if (experiment.value.isCovered) return null;
  const counting = countingTrials(trials.value);
  if (counting.length === 0) return null;
  return (
    <section class="sr" aria-label={words.page.sectionPlot}>
      <ul>
        {counting.map(({ id, power_W }) => (
          <li key={id}>
            {power_W !== null &&
              words.page.markAt(
                words.plan.trial(id),
                resultText(power_W, page.prefixes.value, words),
              )}
          </li>
        ))}
      </ul>
    </section>
  );
}
