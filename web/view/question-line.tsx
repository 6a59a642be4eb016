/** What the tool can't hear, asked in one line with its answers; logging goes on meanwhile. */
import { isPlayed } from '../model/bench.ts';
import { labelOf, runById } from '../model/experiment.ts';
import { startMove } from './operator.ts';
import type { Operating, PageState } from './page-state.ts';
import { Key } from './run-line.tsx';

export interface Answer {
  readonly words: string;
  /** It goes on at the plan's rail, which only the bench has. */
  readonly isOnRail?: true;
  give(): void;
}

export interface Asked {
  readonly asked: string;
  /** In the order of their keys 1, 2, 3. */
  readonly answers: readonly Answer[];
}

export function openQuestion(page: Operating): Asked | null {
  const experiment = page.bench.experiment.value;
  const { question, plan } = experiment;
  const { operator } = page;
  const words = page.words.value;
  if (question === null || isPlayed(page.bench)) return null;
  switch (question.kind) {
    case 'is-fan-on':
      return {
        asked: words.question.isFanOn,
        answers: [
          { words: words.question.yesItRuns, give: () => void operator.say({ say: 'fan-is-on', on: true }) },
          { words: words.question.noItIsOff, give: () => void operator.say({ say: 'fan-is-on', on: false }) },
        ],
      };
    case 'unsettled': {
      const { runId } = experiment;
      const skip = (): void => {
        if (runId !== null) void operator.say({ say: 'skip', runId });
      };
      return {
        asked: words.question.unsettled,
        answers: [
          { words: words.question.average, give: () => void operator.say({ say: 'average' }) },
          ...(runId === null ? [] : [{ words: words.question.skip, give: skip }]),
          { words: words.question.wait, give: () => void operator.say({ say: 'leave-it' }) },
        ],
      };
    }
    case 'unassigned': {
      const { trialId } = question;
      const atWork = runById(experiment, experiment.runId);
      const give = (runId: string) => () => operator.act({ kind: 'move', trialId, runId });
      return {
        asked: words.question.unassigned(trialId),
        answers: [
          ...(atWork === null || plan === null
            ? []
            : [{ words: words.question.giveTo(labelOf(plan, atWork)), give: give(atWork.id) }]),
          {
            words: words.bench.trial.move,
            isOnRail: true,
            give: () => startMove(operator, experiment, trialId),
          },
          { words: words.question.leaveIt, give: () => void operator.say({ say: 'leave-it' }) },
        ],
      };
    }
  }
}

export function QuestionLine({ page }: { page: PageState }) {
  const open = openQuestion(page);
  if (open === null) return null;
  return (
    <div class="question-line">
      <p>{open.asked}</p>
      {open.answers.map(({ words, give }, i) => (
        <button key={i} type="button" class="strong" onClick={give}>
          {words}
          <Key>{String(i + 1)}</Key>
        </button>
      ))}
    </div>
  );
}
