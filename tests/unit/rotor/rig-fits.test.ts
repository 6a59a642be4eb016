/**
 * What is concluded of readings at the bench, and what is not. The fits themselves are checked in
 * the reference tests; here it is what a person is told of them.
 */
import { describe, expect, it } from 'vitest';
import { asNormal } from '#core/rotor/fitting/fitted.ts';
import { concludeGenerator, type GeneratorReadings } from '#core/rotor/fitting/generator-readings.ts';
import { concludeLamp } from '#core/rotor/fitting/lamp-readings.ts';
import { figuresOf, NO_FITS } from '#core/rotor/fitting/rig-fits.ts';
import { operate, setBlades } from '#core/rotor/operating-point.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import { rigWith } from './rigs.ts';

const K = 0.02;
const R = 10;

function steps(...of: [speed: number | null, current: number, off_V?: number][]): GeneratorReadings['steps'] {
  return of.map(([rotorSpeed_radps, current_A, off_V = 0]) => ({
    rotorSpeed_radps,
    current_A,
    voltage_V: K * (rotorSpeed_radps ?? 150) - R * current_A + off_V,
  }));
}

describe('the generator', () => {
  it('with the speed read: constant and winding; one reading more tells how sure', () => {
    const two = concludeGenerator({ speed: 'read', steps: steps([150, 0.02], [90, 0.07]) });
    expect(two.emfConstant_Vsprad?.value).toBeCloseTo(K, 12);
    expect(two.resistance_Ohm?.value).toBeCloseTo(R, 9);
    expect(two.gaps).toEqual(['one more']);
    const more = concludeGenerator({ speed: 'read', steps: steps([150, 0.02, 0.01], [90, 0.07, -0.01], [60, 0.05]) });
    expect(more.gaps).not.toContain('one more');
    expect(more.residuals_V).toHaveLength(3);
  });

  it('spun without a load: the constant, and a load is missing', () => {
    const spun = concludeGenerator({ speed: 'read', steps: steps([100, 0], [200, 0, 0.001]) });
    expect(spun.emfConstant_Vsprad).toMatchObject({ degreesOfFreedom: 1 });
    expect([spun.resistance_Ohm, spun.gaps]).toEqual([null, ['a load']]);
    expect(concludeGenerator({ speed: 'read', steps: steps([0, 0]) }).gaps).toEqual(['a speed']);
  });

  it('at a speed that was held but not read: the winding, and never the constant', () => {
    const held = concludeGenerator({ speed: 'held', steps: steps([null, 0.02], [null, 0.1], [null, 0.15, 0.001]) });
    expect(held.resistance_Ohm!.value).toBeCloseTo(R, 1);
    expect([held.emfConstant_Vsprad, held.resistanceAtMost_Ohm]).toEqual([null, null]);
    expect(held.gaps).toEqual(['speed for the constant']);
    expect(concludeGenerator({ speed: 'held', steps: steps([null, 0.02]) }).gaps).toEqual(['two currents']);
    // Faster at the heavier load.
    const faster = [{ rotorSpeed_radps: null, voltage_V: 2, current_A: 0.1 }, { rotorSpeed_radps: null, voltage_V: 3, current_A: 0.2 }];
    expect(concludeGenerator({ speed: 'held', steps: faster }).gaps).toEqual(['same speed']);
  });

  it('in one wind, with the speed free to fall: only that the winding has no more than this', () => {
    // By the model, which knows the winding.
    const read = [20, 50, 100, 200].map((resistance_Ohm) => {
      const rig = rigWith({ load: { kind: 'resistor', resistance_Ohm } });
      const { voltage_V, current_A } = operate(setBlades(rig, 20)).point;
      return { rotorSpeed_radps: null, voltage_V, current_A };
    });
    const found = concludeGenerator({ speed: 'free', steps: read });
    expect(found.resistance_Ohm).toBeNull();
    expect(found.resistanceAtMost_Ohm).toBeGreaterThan(rigWith({}).generator.resistance_Ohm);
    expect(found.gaps).toEqual(expect.arrayContaining(['speed for the constant', 'speed for the winding']));
    expect(figuresOf({ generator: { speed: 'free', steps: read }, lamp: null })).toMatchObject({
      emfConstant_Vsprad: null,
      windingResistance_Ohm: null,
    });
  });
});

describe('the lamp', () => {
  const points = (exponent: number, ...volts: number[]) => ({
    steps: volts.map((voltage_V) => ({ voltage_V, current_A: 0.2 * (voltage_V / 2.5) ** exponent })),
  });
  // Points exactly on a curve don't show how well it is known.
  it('is told from a resistor, and from what is no filament', () => {
    expect(concludeLamp(points(0.55, 0.5, 1, 2.5))).toMatchObject({ isResistor: false, gaps: ['one more'] });
    expect(concludeLamp(points(1, 0.5, 1, 2.5))).toMatchObject({ isResistor: true, gaps: ['one more'] });
    // A light-emitting diode: a tenth more volts, several times the current.
    expect(concludeLamp(points(8, 1.8, 1.9, 2))).toMatchObject({ fit: null, gaps: ['no filament'] });
    expect(concludeLamp(points(-1, 1, 1.5, 2)).gaps).toEqual(['no filament']);
  });
  it('says what is missing, and leaves cold readings out of fit and picture', () => {
    expect(concludeLamp(points(0.55, 2)).gaps).toEqual(['two voltages']);
    expect(concludeLamp(points(0.55, 2, 2.5)).gaps).toEqual(['one more', 'wider apart']);
    const cold = concludeLamp(points(0.55, 0.05, 1, 2.5));
    expect(cold.residuals.map((one) => one === null)).toEqual([true, false, false]);
    expect(cold.fit?.leftOut).toBe(1);
  });
});

describe('figures for the prediction', () => {
  it('are none without readings, and as unsure as a figure that was said where nothing is to spare', () => {
    expect(figuresOf(NO_FITS)).toEqual({ emfConstant_Vsprad: null, windingResistance_Ohm: null, load: null });
    const two = figuresOf({ generator: { speed: 'read', steps: steps([150, 0.02], [90, 0.07]) }, lamp: null });
    expect([two.emfConstant_Vsprad!.u, two.windingResistance_Ohm!.u]).toEqual([0.03, 0.05]);
  });

  it('hold the truth within their 95 % interval as often as they say, however few readings', () => {
    // Student's theorem (1908): exact for normal errors, here of 10 mV on every voltage.
    const random = createRandom(11);
    let [held, all] = [0, 0];
    for (let i = 0; i < 2000; i++) {
      const noisy = steps(...[[150, 0.02], [120, 0.05], [90, 0.07]].map(([speed, current]) => {
        return [speed!, current!, 0.01 * normal(random)] as [number, number, number];
      }));
      const { resistance_Ohm } = concludeGenerator({ speed: 'read', steps: noisy });
      if (resistance_Ohm === null) continue;
      all += 1;
      held += Number(Math.abs(resistance_Ohm.value - R) < 1.959964 * asNormal(resistance_Ohm)!);
    }
    // Binomial: ±1.5 % are three standard deviations.
    expect(held / all).toBeGreaterThan(0.935);
    expect(held / all).toBeLessThan(0.965);
  });
});
