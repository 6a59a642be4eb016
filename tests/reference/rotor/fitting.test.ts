/** Fits to the rig's own readings against worked examples and certified values. */
import { describe, expect, it } from 'vitest';
import { loadResistance_Ohm, steadyCircuit } from '#core/rotor/circuit.ts';
import { fitGenerator, fitSource } from '#core/rotor/fitting/fit-generator.ts';
import { leastSquares } from '#core/statistics/least-squares.ts';
import { fitLamp, fitPowerLaw } from '#core/rotor/fitting/fit-lamp.ts';

describe('generator from load steps', () => {
  it('two loads at one speed: 2.40 V at 48 mA and 1.50 V at 120 mA are 3.0 V behind 12.5 Ω', () => {
    // Worked by hand: R = ΔV/ΔI, E = V + R I.
    const fit = fitSource([{ voltage_V: 2.4, current_A: 0.048 }, { voltage_V: 1.5, current_A: 0.12 }]);
    expect(fit).toMatchObject({
      emf_V: { value: expect.closeTo(3, 10) as number, standardUncertainty: null, degreesOfFreedom: 0 },
      resistance_Ohm: { value: expect.closeTo(12.5, 10) as number, standardUncertainty: null },
    });
  });

  it('more loads tell how well it is known, and hold the truth', () => {
    const off_V = [0.004, -0.006, 0.003, -0.001, 0.002];
    const steps = [0.02, 0.05, 0.08, 0.12, 0.15].map((current_A, i) => ({
      current_A,
      voltage_V: 3 - 12.5 * current_A + off_V[i]!,
    }));
    const fit = fitSource(steps);
    if (typeof fit === 'string') throw new Error(fit);
    expect(fit.resistance_Ohm.degreesOfFreedom).toBe(3);
    expect(Math.abs(fit.resistance_Ohm.value - 12.5)).toBeLessThan(2 * fit.resistance_Ohm.standardUncertainty!);
    expect(Math.abs(fit.emf_V.value - 3)).toBeLessThan(2 * fit.emf_V.standardUncertainty!);
  });

  it('needs two currents, and a speed that was held', () => {
    expect(fitSource([{ voltage_V: 2.4, current_A: 0.048 }])).toBe('too-few');
    expect(fitSource([{ voltage_V: 2.4, current_A: 0.05 }, { voltage_V: 2.3, current_A: 0.05 }])).toBe('too-few');
    // The rotor ran faster at the heavier load.
    expect(fitSource([{ voltage_V: 2.4, current_A: 0.05 }, { voltage_V: 2.6, current_A: 0.1 }])).toBe('speed-not-held');
    expect(fitSource([])).toBe('too-few');
  });

  it('with the speed read, steps at any speeds will do', () => {
    const steps = [[150, 0.02], [120, 0.05], [90, 0.07]].map(([rotorSpeed_radps, current_A]) => ({
      rotorSpeed_radps: rotorSpeed_radps!,
      current_A: current_A!,
      voltage_V: 0.02 * rotorSpeed_radps! - 10 * current_A!,
    }));
    expect(fitGenerator(steps)).toMatchObject({
      emfConstant_Vsprad: { value: expect.closeTo(0.02, 10) as number, degreesOfFreedom: 1 },
      resistance_Ohm: { value: expect.closeTo(10, 8) as number },
    });
  });

  it('spun without a load it shows its constant alone', () => {
    const steps = [100, 200].map((rotorSpeed_radps) => ({ rotorSpeed_radps, current_A: 0, voltage_V: 0.05 * rotorSpeed_radps }));
    expect(fitGenerator(steps)).toMatchObject({ emfConstant_Vsprad: { value: expect.closeTo(0.05, 12) as number }, resistance_Ohm: null });
    expect(fitGenerator([{ rotorSpeed_radps: 0, current_A: 0, voltage_V: 0 }])).toBe('too-few');
  });
});

describe('power law', () => {
  // NIST Statistical Reference Datasets, DanWood (US government work): certified b1 0.76886226176
  // (standard deviation 0.01828), b2 3.8604055871 (0.05173), residuals of y itself. On logarithms
  // the large values weigh less, so that it agrees within those deviations only; taken on from
  // there by Gauss and Newton, it must arrive at the certified ones.
  const DAN_WOOD = [
    [2.138, 1.309], [3.421, 1.471], [3.597, 1.49], [4.34, 1.565], [4.882, 1.611], [5.66, 1.68],
  ].map(([y, x]) => ({ y: y!, x: x! }));

  it('agrees with the certified one within twice its standard deviation', () => {
    const law = fitPowerLaw(DAN_WOOD)!;
    expect(Math.abs(law.factor - 0.76886226176)).toBeLessThan(2 * 0.01828);
    expect(Math.abs(law.exponent.value - 3.8604055871)).toBeLessThan(2 * 0.05173);
    expect(law.exponent.standardUncertainty! / 0.05173).toBeGreaterThan(0.5);
    expect(law.exponent.standardUncertainty! / 0.05173).toBeLessThan(2);
    expect(law.exponent.degreesOfFreedom).toBe(4);
  });

  it('leads to the certified values', () => {
    const law = fitPowerLaw(DAN_WOOD)!;
    let [b1, b2] = [law.factor, law.exponent.value];
    for (let round = 0; round < 8; round++) {
      const slopes = [DAN_WOOD.map(({ x }) => x ** b2), DAN_WOOD.map(({ x }) => b1 * x ** b2 * Math.log(x))];
      const step = leastSquares(slopes, DAN_WOOD.map(({ x, y }) => y - b1 * x ** b2));
      [b1, b2] = [b1 + step.coefficients[0]!, b2 + step.coefficients[1]!];
    }
    expect(b1).toBeCloseTo(0.76886226176, 9);
    expect(b2).toBeCloseTo(3.8604055871, 9);
  });
});

describe('lamp', () => {
  it('gives its exponent back, and a load that the prediction can use', () => {
    // Fink and Beaty: I ∝ V^0.55, P ∝ V^1.55, R ∝ V^0.45.
    const readings = [0.5, 1, 1.5, 2, 2.5].map((voltage_V) => ({ voltage_V, current_A: 0.2 * (voltage_V / 2.5) ** 0.55 }));
    const { currentExponent, load, leftOut } = fitLamp(readings)!;
    expect(currentExponent.value).toBeCloseTo(0.55, 10);
    expect(leftOut).toBe(0);
    expect(load).toMatchObject({ ratedVoltage_V: 2.5, ratedCurrent_A: expect.closeTo(0.2, 10) as number });
    expect(loadResistance_Ohm(load, 1)).toBeCloseTo(1 / (0.2 * 0.4 ** 0.55), 8);
    const { voltage_V, current_A } = steadyCircuit({ resistance_Ohm: 10 }, load, 3);
    expect(current_A).toBeCloseTo(0.2 * (voltage_V / 2.5) ** 0.55, 8);
  });

  it('leaves cold readings out, and has no law for less than two voltages', () => {
    const cold = { voltage_V: 0.05, current_A: 0.03 };
    const hot = [1, 2].map((voltage_V) => ({ voltage_V, current_A: 0.1 * voltage_V ** 0.55 }));
    expect(fitLamp([cold, ...hot])).toMatchObject({ leftOut: 1, currentExponent: { value: expect.closeTo(0.55, 10) as number } });
    expect(fitLamp([cold])).toBeNull();
    expect(fitLamp([])).toBeNull();
  });
});
