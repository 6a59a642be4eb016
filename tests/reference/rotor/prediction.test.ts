/** The prediction of whole rigs against another model's figures and what the trade knows. */
import { describe, expect, it } from 'vitest';
import { airTorque_Nm, operate, setBlades, whenPushed } from '#core/rotor/operating-point.ts';
import { powerFlow } from '#core/rotor/power-flow.ts';
import { bladePolar, MIDDLE, type BenchRig } from '#core/rotor/bench-rig.ts';
import { bladingOf, rotorCoefficients } from '#core/rotor/rotor.ts';
import { platePolar } from '#core/rotor/plate-polar.ts';
import { factorialRig, loading, RIG_COUNT } from '../../unit/rotor/factorial.ts';
import { rigWith } from '../../unit/rotor/rigs.ts';

const ANGLES_DEG = [15, 30, 45, 60, 90];

function loadPower_W(rig: BenchRig, angle_deg: number): number {
  return powerFlow(rig, operate(setBlades(rig, angle_deg)).point).load_W;
}

function powers_mW(rig: BenchRig): number[] {
  return ANGLES_DEG.map((angle_deg) => 1000 * loadPower_W(rig, angle_deg));
}

function expectWithinFactor(found: number, expected: number, factor: number): void {
  expect(found / expected).toBeGreaterThan(1 / factor);
  expect(found / expected).toBeLessThan(factor);
}

describe('a rig of three flat blades, against another blade element model (independent program)', () => {
  // Its C_D at 90° was 1.4 and 1.98 on the first rig: 36.8 11.1 4.0 1.5 and 42.4 11.7 4.2 1.5 mW.
  it.each<[string, BenchRig, number[]]>([
    ['at light load', rigWith(), [42.4, 11.7, 4.2, 1.5, 0]],
    ['at heavy load', rigWith({ emfConstant_Vsprad: 0.15 }), [138, 289, 143, 58, 0]],
    ['in little wind against stiff bearings', rigWith({ windSpeed_mps: 3, staticTorque_Nm: 0.006 }), [0, 4.9, 1.7, 0.6, 0]],
  ])('%s: within a factor of 1.5', (_, rig, expected) => {
    powers_mW(rig).forEach((found, i) => {
      if (expected[i] === 0) expect(found).toBe(0);
      else expectWithinFactor(found, expected[i]!, 1.5);
    });
  });

  it('starts with less torque than without induction, but not by much', () => {
    // C_Q0 of the same model, free-stream induction, C_D 1.98 at 90°: too high, as it says itself.
    const polar = platePolar({ camber: 0, broadsideDrag: 1.98, smoothness: 1 });
    for (const [angle_deg, most] of [[15, 0.056], [30, 0.1], [45, 0.126], [60, 0.12]] as const) {
      const blading = bladingOf(rigWith().rotor, (angle_deg * Math.PI) / 180, polar);
      const { torque } = rotorCoefficients(blading, 0);
      expect(torque).toBeLessThan(most);
      expect(torque).toBeGreaterThan(0.6 * most);
    }
  });
});

describe('ranking of blade angles over rigs that a workshop could build', () => {
  // Rule of the same independent model over 3888 rigs of its own. Every 17th rig of ours here; the
  // whole factorial is reported in docs/rotor.md. Two narrow blades may stall below the rule's edge.
  const rigs = Array.from({ length: Math.floor(RIG_COUNT / 17) }, (_, i) => factorialRig(17 * i)).map((rig) => {
    const { blades, chord_m, radius_m } = rig.rotor;
    const solidity = (blades * chord_m) / (Math.PI * radius_m);
    const starts = operate(setBlades(rig, 15)).starts;
    return { starts, solidity, loading: loading(rig), powers_mW: powers_mW(rig) };
  });

  it('falls steadily from 15° to edge-on at light load, where 15° starts by itself', () => {
    const light = rigs.filter((rig) => rig.loading < 0.012 && rig.starts && rig.solidity > 0.1);
    expect(light.length).toBeGreaterThan(80);
    for (const { powers_mW } of light) {
      const falling = powers_mW.slice(1).map((power_mW, i) => power_mW < powers_mW[i]! || power_mW === 0);
      expect(falling).toEqual([true, true, true, true]);
    }
  });

  it('has a steeper angle on top at heavy load', () => {
    const heavy = rigs.filter((rig) => rig.loading > 0.09 && Math.max(...rig.powers_mW) > 0);
    expect(heavy.length).toBeGreaterThan(8);
    for (const { powers_mW } of heavy) expect(powers_mW[0]).toBeLessThan(Math.max(...powers_mW));
  });

  it('gives nothing edge-on', () => {
    expect(rigs.every(({ powers_mW }) => powers_mW.at(-1) === 0)).toBe(true);
  });
});

it('a fan on its highest setting 50 cm in front of two blades with a lamp: 15° gives the most', () => {
  // Common practice, no source: of 15, 30, 45, 60 and 90 degrees.
  const load = { kind: 'lamp', ratedVoltage_V: 2.5, ratedCurrent_A: 0.04 } as const;
  const rig = rigWith({ blades: 2, windSpeed_mps: 5, load });
  const powers = powers_mW(rig);
  expect(Math.max(...powers)).toBe(powers[0]);
});

it('its few rings give the power of many within 1 %, and the torque within 3 %', () => {
  for (const rig of [rigWith(), rigWith({ blades: 2, chord_m: 0.03 }), rigWith({ emfConstant_Vsprad: 0.06 })]) {
    for (const angle_deg of [10, 15, 30, 60]) {
      const few = setBlades(rig, angle_deg);
      const blading = bladingOf(rig.rotor, (angle_deg * Math.PI) / 180, bladePolar(rig, MIDDLE), 100);
      const many = operate({ rig, blading }).point;
      expectWithinFactor(loadPower_W(rig, angle_deg), many.voltage_V * many.current_A, 1.01);
      for (const ratio of [0, 1, 2, 4]) {
        const [found, exact] = [few.blading, blading].map((one) => rotorCoefficients(one, ratio).torque) as [number, number];
        expect(Math.abs(found - exact)).toBeLessThan(0.03 * Math.max(0.02, Math.abs(exact)));
      }
    }
  }
});

describe('operating point', () => {
  it('is where the torques balance', () => {
    for (const angle_deg of [8, 15, 30, 60]) {
      const set = setBlades(rigWith(), angle_deg);
      const { generator } = set.rig;
      const { point, starts } = operate(set);
      expect(starts).toBe(true);
      const braking_Nm = generator.emfConstant_Vsprad * point.current_A + generator.runningTorque_Nm;
      expect(airTorque_Nm(set, point.tipSpeedRatio)).toBeCloseTo(braking_Nm, 8);
      expect(point.torque_Nm).toBeCloseTo(braking_Nm, 12);
      const emf_V = point.voltage_V + point.current_A * generator.resistance_Ohm;
      expect(emf_V).toBeCloseTo(generator.emfConstant_Vsprad * point.rotorSpeed_radps, 8);
    }
  });

  it('gives the most to a load that is no lighter than the winding (a heavier one brakes twice)', () => {
    const loads_Ohm = [1, 2, 5, 10, 20, 50, 100, 200, 500];
    const powers = loads_Ohm.map((resistance_Ohm) => {
      const rig = rigWith({ emfConstant_Vsprad: 0.06, load: { kind: 'resistor', resistance_Ohm } });
      return loadPower_W(rig, 30);
    });
    // At a held speed the most would lie at 10 Ω (maximum power transfer); this rotor slows down.
    expect(loads_Ohm[powers.indexOf(Math.max(...powers))]).toBeGreaterThanOrEqual(10);
  });

  it('stays at rest against friction, and knows that a push would do', () => {
    const stiff = setBlades(rigWith({ windSpeed_mps: 3, staticTorque_Nm: 0.006 }), 15);
    expect(operate(stiff)).toMatchObject({ starts: false, point: { rotorSpeed_radps: 0 } });
    expect(whenPushed(stiff)?.tipSpeedRatio).toBeGreaterThan(3);
  });

  it('stays in the slow one of two stable speeds when it starts by itself', () => {
    const rig = factorialRig(1774);
    const slow = operate(setBlades(rig, 15));
    const fast = whenPushed(setBlades(rig, 15));
    expect(slow.starts).toBe(true);
    expect(fast!.rotorSpeed_radps).toBeGreaterThan(1.5 * slow.point.rotorSpeed_radps);
  });

  it('loses power with blades that reach out of the jet', () => {
    const power = (jetRadius_m: number | null): number =>
      loadPower_W(rigWith({ jetRadius_m }), 30);
    expect(power(0.25)).toBe(power(null));
    expect(power(0.15)).toBeLessThan(0.8 * power(null));
  });
});
