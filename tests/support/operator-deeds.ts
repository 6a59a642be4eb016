/** What an operator may do, in any order, for properties of whatever comes of it. */
import fc from 'fast-check';
import type { Command } from '#core/experiment/command.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { addressOf } from '#core/experiment/trial-book.ts';
import type { Input } from '#core/inputs.ts';
import type { PipelineState } from '#core/pipeline/state.ts';
import { ROTOR_AND_AIR } from './budgets.ts';
import { keyIn } from './keyed-readings.ts';

export const PLAN = anglePlan(3);
const [FIRST, SECOND] = PLAN.factors[0]!.levels;

const readings = fc.double({ min: 0.5, max: 3, noNaN: true }).map((volts) => Number(volts.toFixed(2)));
const number = fc.nat(11);
export const deed = fc.oneof(
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
export type Deed = typeof deed extends fc.Arbitrary<infer T> ? T : never;

/** As it is recorded. There must be a trial; which one, or which run, is the deed's number. */
export function inputOf(wanted: Deed, { book, conductor }: PipelineState, at_s: number): Input {
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
