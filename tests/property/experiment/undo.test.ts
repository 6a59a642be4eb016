/** What was done is taken back just so, whether or not the program was started again meanwhile. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { LedgerSchema } from '#core/experiment/conductor/ledger.ts';
import { experimentView } from '#core/experiment/conductor/view.ts';
import { createBook } from '#core/experiment/trial-book.ts';
import { TrialSchema } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import { begin, type PipelineState } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { script } from '../../support/bench-script.ts';
import { deed, inputOf, PLAN, type Deed } from '../../support/operator-deeds.ts';

/** A lesson with a board: two trials that are there before anything is taken back. */
const LESSON = script().open().level(0, 1).say({ say: 'plan', plan: PLAN }).level(0, 5)
  .level(2.4, 14).level(0, 14).level(1.9, 14).level(0, 14).inputs;

function play(inputs: readonly Input[], from = begin(freshHead('board'), 1)): PipelineState {
  return inputs.reduce((state, input) => step(state, input).state, from);
}

/** As a server that was killed goes on: with what is on disk, and nothing else. */
function startedAgain({ conductor, book }: PipelineState): PipelineState {
  const kept = JSON.stringify({ ledger: conductor.ledger, trials: book.trials });
  const { ledger, trials } = JSON.parse(kept) as { ledger: unknown; trials: unknown[] };
  const again = createBook(trials.map((trial) => TrialSchema.parse(trial)));
  return begin({ ...freshHead('board'), experiment: LedgerSchema.parse(ledger) }, 1, again);
}

function told({ conductor, book }: PipelineState): unknown {
  return JSON.parse(JSON.stringify({
    ledger: conductor.ledger,
    trials: book.trials,
    undoes: experimentView(conductor, book.trials, true).undoes,
  }));
}

it('undo after a restart is undo without one, at every step and down to the first', () => {
  const lesson = startedAgain(play(LESSON));
  expect(lesson.book.trials).toHaveLength(2);
  const deeds = fc.array(fc.tuple(deed, fc.boolean()), { minLength: 4, maxLength: 20 });
  let takenBack = 0;
  fc.assert(
    fc.property(deeds, (all) => {
      let ran = startedAgain(lesson);
      let stopped = startedAgain(lesson);
      let at_s = 100;
      const both = (wanted: Deed, isStopped: boolean): void => {
        at_s += 1;
        const input = inputOf(wanted, ran, at_s);
        ran = step(ran, input).state;
        stopped = step(isStopped ? startedAgain(stopped) : stopped, input).state;
        expect(told(stopped)).toEqual(told(ran));
      };
      for (const [wanted, isStopped] of all) both(wanted, isStopped);
      while (ran.conductor.ledger.undos.length > 0) {
        both({ do: 'undo' }, true);
        takenBack += 1;
      }
      expect(ran.conductor.ledger.plan).toBeNull();
      expect(ran.book.trials.filter(({ struck }) => !struck)).toHaveLength(2);
    }),
    { numRuns: 100 },
  );
  // Far below what random deeds give; none would mean that nothing was tried.
  expect(takenBack).toBeGreaterThan(100);
});
