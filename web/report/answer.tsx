/** The answer in the words of the other pages; for students, lines to write their own. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import { besideNames } from '#core/experiment/answer/seats.ts';
import { labelOf } from '#core/experiment/plan/factors.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import { WEIGHT } from '../draw/numeral.ts';
import { answerSaid, sourceSaid } from '../model/answer-said.ts';
import { LargeLevel } from '../view/level-now.tsx';
import { Lines, Section } from './section.tsx';
import type { Report } from './state.ts';

interface AnswerProps {
  readonly report: Report;
  readonly plan: Plan;
  readonly part: AnalysedPart;
}

export function Answer({ report, plan, part }: AnswerProps) {
  const { words, say } = report;
  const { answer } = part;
  const { best } = answer.comparison;
  const seat = answer.settings.find(({ level }) => level === best.level)?.seat ?? null;
  const said = answerSaid(answer, words.value);
  return (
    <Section name={say.value.section.answer} class="answer">
      {seat !== null && (
        // What stands is heavy; what may still change is thin.
        <p class="best-level" aria-hidden="true">
          <LargeLevel
            label={labelOf(answer.factor, seat.level)}
            weight={best.reason === 'clear' ? WEIGHT.heavy : WEIGHT.hairline}
          />
          <span class="others">{besideNames(plan, part.place)[seat.beside]}</span>
        </p>
      )}
      <div>
        <p class="sentence">{said?.said ?? words.value.sentence.nothingYet}</p>
        {said !== null && said.small !== '' && <p>{said.small}</p>}
        {sourceSaid(answer, words.value).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {best.method === 'every-look' && <p class="soft">{say.value.answer.everyLook}</p>}
      </div>
    </Section>
  );
}

const LINES = { expected: 2, highest: 2, sure: 2, why: 5, better: 3 } as const;
const ASKED = ['expected', 'highest', 'sure', 'why', 'better'] as const;

export function OwnAnswer({ report: { say } }: { report: Report }) {
  const { own, section } = say.value;
  return (
    <Section name={section.own} class="own">
      {ASKED.map((asked) => (
        <div key={asked} class="asked">
          <p>{own[asked]}</p>
          <Lines count={LINES[asked]} />
        </div>
      ))}
    </Section>
  );
}
