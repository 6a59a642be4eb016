/** Which part of the wind's power the rig made use of, and why it can't be all of it. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import { WindScale } from '../budget/wind-scale.tsx';
import { shownCoefficient } from '../model/coefficient.ts';
import { Section } from './section.tsx';
import type { Report } from './state.ts';

/** Of the trial whose budget is shown; nothing where wind or rotor are not known. */
export function WindShare({ report, part }: { report: Report; part: AnalysedPart }) {
  const { words, say } = report;
  const coefficient = part.budgeted?.coefficient;
  if (coefficient === undefined || coefficient.kind === 'none') return null;
  const shown = shownCoefficient(coefficient, words.value);
  return (
    <Section name={say.value.section.wind} class="wind-share">
      <p>
        {words.value.plan.trial(part.budgeted?.trial.id ?? 0)}: <b>{shown.result}</b>
      </p>
      {shown.scale !== null && <WindScale scale={shown.scale} say={words.value.wind} />}
      <p>
        {[shown.alarm, ...shown.sentences, shown.missing]
          .filter((sentence) => sentence !== null)
          .join(' ')}
      </p>
    </Section>
  );
}
