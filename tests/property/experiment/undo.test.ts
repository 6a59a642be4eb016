/** What was done is taken back just so, whether or not the program was started again meanwhile. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Command } from '#core/experiment/command.ts';
import { LedgerSchema } from '#core/experiment/conductor/ledger.ts';
import { experimentView } from '#core/experiment/conductor/view.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { addressOf, createBook } from '#core/experiment/trial-book.ts';
import { TrialSchema } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import { begin, type PipelineState } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { script } from '../../support/bench-script.ts';
import { ROTOR_AND_AIR } from '../../support/budgets.ts';
import { keyIn } from '../../support/keyed-readings.ts';

const PLAN = anglePlan(3);
const [FIRST, SECOND] = PLAN.factors[0]!.levels;

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

const readings = fc.double({ min: 0.5, max: 3, noNaN: true }).map((volts) => Number(volts.toFixed(2)));
const number = fc.nat(11);
const deed = fc.oneof(
  { weight: 4, arbitrary: fc.constant({ do: 'undo' } as const) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('key-in' as const), number, readings }) },
  {
    weight: 6,
    arbitrary: fc.record({
      do: fc.constantFrom('strike', 'restore', 'note', 'move', 'again', 'skip', 'unskip', 'take-up'),
      number,
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constantFrom('cover', 'reveal', 'predict', 'plan', 'no-plan', 'relabel', 'correct', 'accept', 'fit-lamp', 'rotor'),
      number,
    }),
  },
);
type Deed = typeof deed extends fc.Arbitrary<infer T> ? T : never;

function inputOf(wanted: Deed, { book, conductor }: PipelineState, at_s: number): Input {
  const { runs } = conductor.ledger;
  const place = 'number' in wanted ? wanted.number : 0;
  const runId = runs[place % Math.max(runs.length, 1)]?.id ?? 'r1';
  const address = addressOf(book.trials[place % book.trials.length]!);
  const say = (command: Command): Input => ({ kind: 'command', at_s, command });
  switch (wanted.do) {
    case 'strike':
      return { kind: 'action', at_s, action: { kind: 'strike', ...address, reason: 'bumped' } };
    case 'restore':
      return { kind: 'action', at_s, action: { kind: 'restore', ...address } };
    case 'note':
      return { kind: 'action', at_s, action: { kind: 'note', ...address, text: `note ${place}` } };
    case 'move':
      return { kind: 'action', at_s, action: { kind: 'move', ...address, runId } };
    case 'key-in':
      return say(keyIn(runs.length > 0 ? runId : null, [[wanted.readings, 0.04], [wanted.readings, 0.041]]));
    case 'plan':
      return say({ say: 'plan', plan: { ...PLAN, rounds: 1 + (place % 3) } });
    case 'no-plan':
      return say({ say: 'plan', plan: null });
    case 'predict':
      return say({ say: 'predict', level: SECOND!.label, votes: place });
    case 'accept':
      return say({ say: 'accept-finding', kind: 'no-current', channel: 'current_A' });
    case 'relabel':
      return say({ say: 'relabel', factor: PLAN.factors[0]!.key, from: FIRST!.label, to: { label: '9°', value: 9 } });
    case 'rotor':
      return say({ say: 'rotor-and-air', described: { ...ROTOR_AND_AIR, hubRadius_m: place / 1000 } });
    case 'fit-lamp': {
      const steps = [1, 2 + place].map((voltage_V) => ({ voltage_V, current_A: 0.1 * voltage_V ** 0.5 }));
      return say({ say: 'fit-lamp', readings: { steps } });
    }
    case 'correct': {
      const line = { gain: 1 + place / 20, offset: 0 };
      return say({ say: 'correct', trials: [address], quantity: 'voltage_V', line });
    }
    case 'again':
    case 'skip':
    case 'unskip':
    case 'take-up':
      return say({ say: wanted.do, runId });
    default:
      return say({ say: wanted.do });
  }
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
