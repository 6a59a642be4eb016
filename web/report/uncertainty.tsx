/** Where the ± of a trial comes from: one at the highest level, as an example. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import { CauseTable } from '../budget/cause-table.tsx';
import { shownBudget } from '../model/budget.ts';
import { Section } from './section.tsx';
import type { Report } from './state.ts';

export function Uncertainty({ report, part }: { report: Report; part: AnalysedPart }) {
  const { words, say, prefixes } = report;
  const { budgeted, answer } = part;
  const { best } = answer.comparison;
  if (budgeted === null || best.level === null) return null;
  const { section, uncertainty } = say.value;
  const shown = shownBudget(budgeted, prefixes.value.power_W, words.value);
  const { budget } = words.value;
  return (
    <Section name={section.uncertainty} class="wide budget-part">
      <p>
        {uncertainty.of(budgeted.trial.id, answer.labelOf(best.level))} <b>{shown?.result}</b>
      </p>
      {shown === null ? (
        <p>{budget.unknown}</p>
      ) : (
        <>
          <p>
            {[...shown.sentences, shown.missing, uncertainty.ranking]
              .filter((sentence) => sentence !== null)
              .join(' ')}
          </p>
          <CauseTable causes={shown.causes} say={budget} />
        </>
      )}
    </Section>
  );
}
