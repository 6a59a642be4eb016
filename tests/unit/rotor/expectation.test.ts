import { describe, expect, it } from 'vitest';
import type { BenchRig } from '#core/rotor/bench-rig.ts';
import { drawRigs, USUAL_UNCERTAINTY } from '#core/rotor/doubt.ts';
import { compareWithExpected, type Expectation, type MeasuredLevel } from '#core/rotor/expected/expectation.ts';
import { SUSPECTS, SUSPICIONS, type Suspect } from '#core/rotor/expected/suspects.ts';
import { operate, setBlades } from '#core/rotor/operating-point.ts';
import { powerFlow } from '#core/rotor/power-flow.ts';
import { createRandom } from '#core/virtual-rig/random.ts';
import { rigWith } from './rigs.ts';

const DRAWS = drawRigs(createRandom(1), 100);
const ANGLES_DEG = [15, 45];

function loadPower_W(rig: BenchRig, angle_deg: number): number {
  return powerFlow(rig, operate(setBlades(rig, angle_deg)).point).load_W;
}

function level(angle_deg: number, loadPower_W: number): MeasuredLevel {
  return { angle_deg, loadPower_W, standardUncertainty_W: 0.02 * loadPower_W };
}

function compared(measured: readonly MeasuredLevel[], rig = rigWith()): Expectation {
  return compareWithExpected({ rig, uncertainty: USUAL_UNCERTAINTY, draws: DRAWS, measured });
}

/** What a rig would show of which this is true, though something else was said. */
function whenTrue(suspect: Suspect, stretch: number): MeasuredLevel[] {
  const { change, apply } = SUSPICIONS.find((one) => one.suspect === suspect)!;
  return ANGLES_DEG.map((angle_deg) => {
    const truth = apply({ rig: rigWith(), angle_deg, reading: 1 }, change(stretch, USUAL_UNCERTAINTY));
    return level(angle_deg, truth.reading * loadPower_W(truth.rig, truth.angle_deg));
  });
}

describe('measured beside expected', () => {
  it('has a suspicion for every suspect', () => {
    expect(SUSPICIONS.map(({ suspect }) => suspect)).toEqual(SUSPECTS);
  });

  it('finds nothing where nothing is off', () => {
    const { levels, explanations, statement } = compared(ANGLES_DEG.map((angle) => level(angle, loadPower_W(rigWith(), angle))));
    expect(levels.map(({ isFar }) => isFar)).toEqual([false, false]);
    expect(explanations).toEqual([]);
    expect(statement).toBe('All levels lie where the model expects them.');
  });

  it.each<[Suspect, number]>([
    ['jet narrower than the rotor', 3],
    ['wind in km/h', 3],
    ['diameter for radius', 3],
    ['angle from the axis', 3],
    ['power in mW', 3],
  ])('ranks %s first where that was it', (suspect, stretch) => {
    const { levels, explanations, statement } = compared(whenTrue(suspect, stretch));
    expect(levels.some(({ isFar }) => isFar)).toBe(true);
    expect(explanations[0]).toMatchObject({ suspect });
    expect(explanations[0]!.left).toBeLessThan(0.5);
    expect(statement).toContain(`First to look at: ${suspect}.`);
  });

  it('takes a rotor that did not turn for friction or what else holds it, not for a wrong unit', () => {
    const stuck = [level(15, 0), level(45, loadPower_W(rigWith(), 45))];
    const { levels, explanations } = compared(stuck);
    expect(levels.map(({ isFar }) => isFar)).toEqual([true, false]);
    expect(explanations[0]!.suspect).toBe('friction');
    expect(explanations[0]!.change).toBeGreaterThan(2);
    expect(explanations[0]!.statement).toMatch(/^Friction [\d.]+ times what was said would bring/);
  });

  it('says so where no single change explains it, and nothing where nothing was measured', () => {
    const wild = [level(15, 1e-6), level(30, 10), level(60, 1e-6)];
    const { explanations, levels } = compared(wild);
    expect(levels.every(({ isFar }) => isFar)).toBe(true);
    for (const { left } of explanations) expect(left).toBeGreaterThan(5);
    expect(compared([])).toEqual({ levels: [], explanations: [], statement: 'Nothing has been measured yet.' });
  });
});
