/** Which part of the wind's power the rig made use of, and why it can't be all of it. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import { WindScale } from '../budget/wind-scale.tsx';
import { shownCoefficient, speedSentences } from '../model/coefficient.ts';
import { Section } from './section.tsx';
import type { Report } from './state.ts';

/** Of the trial whose budget is shown; nothing where wind or rotor are not known. */
export function WindShare({ report, part }: { report: Report; part: AnalysedPart }) {
  const { words, say } = report;
  if (part.budgeted === null || part.budgeted.coefficient.kind === 'none') return null;
  const { coefficient, speed } = part.budgeted;
  const shown = shownCoefficient(coefficient, words.value);
  return (
    <Section name={say.value.section.wind} class="wind-share">
      <p>
        {words.value.plan.trial(part.budgeted?.trial.id ?? 0)}: <b>{shown.result}</b>
      </p>
      {shown.scale !== null && <WindScale scale={shown.scale} say={words.value.wind} />}
      <p>
        {[shown.alarm, ...shown.sentences, ...speedSentences(speed, words.value), shown.missing]
          .filter((sentence) => sentence !== null)
          .join(' ')}
      </p>
    </Section>
  );
}
