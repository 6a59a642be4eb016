import { describe, expect, it } from 'vitest';
import type { BenchRig } from '#core/rotor/bench-rig.ts';
import { drawRigs, USUAL_UNCERTAINTY } from '#core/rotor/doubt.ts';
import { predict, type Prediction } from '#core/rotor/prediction.ts';
import { createRandom } from '#core/virtual-rig/random.ts';
import { factorialRig } from './factorial.ts';
import { rigWith } from './rigs.ts';

const DRAWS = drawRigs(createRandom(1), 100);
const NOTHING = { length_m: [], blades: [], loadResistance_Ohm: [] };
const SURE = { windSpeed: 0, angle_deg: 0, emfConstant: 0, windingResistance: 0, friction: 0, load: 0, chord: 0 };

function predicted(angles_deg: number[], rig: BenchRig = rigWith(), uncertainty = USUAL_UNCERTAINTY): Prediction {
  return predict({ rig, angles_deg, vary: NOTHING, uncertainty, draws: DRAWS });
}

describe('prediction', () => {
  it('shares the power out: what the rotor takes is what friction, winding and load get', () => {
    for (const { powerFlow, shaftPower_W, powerCoefficient } of predicted([10, 30, 60, 90]).angles) {
      const { wind_W, rotor_W, friction_W, winding_W, load_W, band } = powerFlow;
      expect(friction_W + winding_W + load_W).toBeCloseTo(rotor_W, 12);
      expect(rotor_W).toBe(shaftPower_W);
      expect(powerCoefficient * wind_W).toBeCloseTo(rotor_W, 12);
      for (const [part, value] of Object.entries({ wind_W, rotor_W, friction_W, winding_W, load_W })) {
        const { low_W, high_W } = band[part as keyof typeof band];
        expect(low_W).toBeLessThanOrEqual(value);
        expect(high_W).toBeGreaterThanOrEqual(value);
      }
    }
  });

  it('has a wide band where much is uncertain, and a narrow one where only the blades are', () => {
    const width = (uncertainty: typeof SURE): number => {
      const [angle] = predicted([30], rigWith(), uncertainty).angles;
      return (angle!.loadPowerHigh_W - angle!.loadPowerLow_W) / angle!.loadPower_W;
    };
    expect(width(SURE)).toBeGreaterThan(0);
    expect(width({ ...SURE, windSpeed: 0.05 })).toBeGreaterThan(width(SURE));
    // Power goes with the square of the wind and more; the middle 95 % are four standard deviations.
    expect(width({ ...SURE, windSpeed: 0.05 })).toBeGreaterThan(0.05 * 2 * 3);
    expect(width({ ...SURE, windSpeed: 0.1 })).toBeGreaterThan(1.5 * width({ ...SURE, windSpeed: 0.05 }));
  });

  it('is the same for the same draws', () => {
    expect(predicted([15, 30])).toEqual(predicted([15, 30]));
  });

  it('calls an angle inside what was tried the best without a word on edges', () => {
    const { best } = predicted([60, 15, 30, 45], rigWith({ emfConstant_Vsprad: 0.15 }));
    expect(best).toMatchObject({ angle_deg: 30, isAtEdge: false });
    expect(best.statement).not.toContain('edge');
  });

  it('names the edge, and angles that may be better', () => {
    const { best } = predicted([30, 31, 60]);
    expect(best).toMatchObject({ angle_deg: 30, isAtEdge: true });
    expect(best.statement).toContain('at the edge of what was tried');
    const close = predicted([20, 26, 45], rigWith({ emfConstant_Vsprad: 0.15 })).best;
    expect(close).toMatchObject({ angle_deg: 20, tiedWith: [26] });
    expect(close.statement).toContain('may give more');
  });

  it('says of a single angle that it was the only one', () => {
    expect(predicted([30]).best.statement).toContain('the only angle asked for');
  });

  it('says when none starts, and that a push would do', () => {
    const { best, angles, remarks } = predicted([10, 15], rigWith({ windSpeed_mps: 3, staticTorque_Nm: 0.01 }));
    expect(best).toMatchObject({ angle_deg: null, share: null, isAtEdge: false });
    expect(best.statement).toBe('At none of these angles does the rotor start by itself.');
    expect(angles[0]).toMatchObject({ starts: false, loadPower_W: 0, rotorSpeed_radps: 0 });
    expect(angles[0]!.pushed!.loadPower_W).toBeGreaterThan(0);
    expect(remarks).toContain('At 10° it does not start by itself; spun by hand it would keep turning.');
  });

  it('says where the speed jumps', () => {
    // Two narrow blades that at 15° stay stalled when they start by themselves.
    const { remarks } = predicted([15, 30], factorialRig(1774));
    expect(remarks.some((remark) => /^At 15° it stays slow.*times as fast\.$/.test(remark))).toBe(true);
    expect(remarks).toContain('Between 15° and 30° its speed jumps: a degree may decide.');
  });

  it('says when it may not start', () => {
    const { remarks } = predicted([30], rigWith({ windSpeed_mps: 3, staticTorque_Nm: 0.0065 }));
    expect(remarks[0]).toMatch(/^At 30° it may not start by itself: it does in \d\d of 100 draws\.$/);
  });
});

describe('variations', () => {
  const vary = { length_m: [0.1, 0.17, 0.25], blades: [2, 3, 6], loadResistance_Ohm: [5, 50, 500] };

  it('change one thing at a time at the best of the angles', () => {
    const { angles, variations } = predict({ rig: rigWith(), angles_deg: [15, 30], vary, uncertainty: USUAL_UNCERTAINTY, draws: DRAWS });
    expect(variations.map(({ factor, angle_deg, levels }) => [factor, angle_deg, levels.map(({ level }) => level)])).toEqual([
      ['length_m', 15, vary.length_m],
      ['blades', 15, vary.blades],
      ['loadResistance_Ohm', 15, vary.loadResistance_Ohm],
    ]);
    // As the rig is: blades of 17 cm, three of them, 50 Ω.
    for (const { levels } of variations) {
      const { level, ...point } = levels[1]!;
      expect({ angle_deg: 15, ...point }).toEqual(angles[0]);
    }
  });

  it('say which is best, with its edge, and nothing of what is not varied', () => {
    const { variations } = predict({ rig: rigWith(), angles_deg: [30], vary: { ...vary, length_m: [], blades: [] }, uncertainty: USUAL_UNCERTAINTY, draws: DRAWS });
    expect(variations.map(({ factor }) => factor)).toEqual(['loadResistance_Ohm']);
    const { best, levels } = variations[0]!;
    expect(best.level).toBe(levels.reduce((a, b) => (b.loadPower_W > a.loadPower_W ? b : a)).level);
    expect(best.statement).toMatch(/^A load of \d+ Ω should give the most power/);
    expect(best.statement.includes('at the edge')).toBe(best.isAtEdge);
  });
});

describe('draws near edge-on', () => {
  it('let flat blades turn either way, so that a slip of the angle shows as some power', () => {
    const [flat] = predicted([90]).angles;
    expect(flat).toMatchObject({ starts: false, loadPower_W: 0, loadPowerLow_W: 0 });
    expect(flat!.loadPowerHigh_W).toBeGreaterThan(0);
  });

  it('keep the figure of cambered blades within their band', () => {
    const [cambered] = predicted([90], rigWith({ camber: 0.1, windSpeed_mps: 8, staticTorque_Nm: 0, runningTorque_Nm: 0 })).angles;
    expect(cambered!.starts).toBe(true);
    expect(cambered!.loadPowerLow_W).toBeLessThan(cambered!.loadPower_W);
    expect(cambered!.loadPowerHigh_W).toBeGreaterThan(cambered!.loadPower_W);
  });
});
