/** A plan that sets the fan is followed on the simulated rig too. */
import { describe, expect, it } from 'vitest';
import { instructionOf } from '#core/experiment/conductor/instruction.ts';
import { PlanSchema, type Level } from '#core/experiment/plan/plan.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { DEMO_PARAMETERS, DEMO_WIND_MPS } from '#core/virtual-rig/demo.ts';
import { createLedOperator, obey } from '#core/virtual-rig/led-operator.ts';
import { createRandom } from '#core/virtual-rig/random.ts';

/** The wind that the operator sets the fan to for each run, in the order of the levels, m/s. */
function windsFor(kind: 'fan' | 'angle', levels: readonly Level[]): number[] {
  const key = kind === 'fan' ? 'fan' : 'angle_deg';
  const plan = PlanSchema.parse({
    question: 'Which gives the most power?',
    factors: [{ kind, key, name: 'Level', levels }],
    ...{ design: 'single', rounds: 1, order: 'listed', seed: 1 },
  });
  let { state } = step(begin(freshHead('simulated'), 1), { kind: 'command', at_s: 0, command: { say: 'plan', plan } });
  return state.conductor.ledger.runs.map(({ id: runId }) => {
    const command = { say: 'take-up', runId } as const;
    state = step(state, { kind: 'command', at_s: 0, command }).state;
    const given = { random: createRandom(1), rotor: DEMO_PARAMETERS.plant.rotor, wind_mps: DEMO_WIND_MPS, angle_deg: 20 };
    const told = instructionOf({ ...state.conductor, onRigId: runId }, []);
    const deeds = obey(createLedOperator(given), { ...told, step: 'set-blades' }, 0);
    return deeds.flatMap(({ event }) => (event.kind === 'fan' ? [event.wind_mps / DEMO_WIND_MPS] : []))[0]!;
  });
}
const numbers = (...values: number[]): Level[] => values.map((value) => ({ label: String(value), value }));

describe('the fan of the simulated rig', () => {
  it('blows in proportion to the number of its level, the strongest as ever', () => {
    expect(windsFor('fan', numbers(50, 75, 100))).toEqual([0.5, 0.75, 1]);
    expect(windsFor('fan', numbers(2, 0))).toEqual([1, 0]);
  });
  it('grows with names as they are listed', () => {
    const levels = ['low', 'middle', 'high'].map((label) => ({ label, value: null }));
    const winds = windsFor('fan', levels);
    expect(winds[2]).toBe(1);
    expect(winds[0]).toBeCloseTo(2 / 3, 12);
    expect(winds[1]).toBeCloseTo(5 / 6, 12);
  });
  it('stays as it is where the plan changes something else', () => {
    expect(windsFor('angle', numbers(10, 40))).toEqual([1, 1]);
  });
});
