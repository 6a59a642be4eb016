import { describe, expect, it } from 'vitest';
import {
  loadResistance_Ohm,
  steadyCircuit,
  type Generator,
  type Load,
} from '#core/rotor/circuit.ts';

const GENERATOR: Generator = {
  emfConstant_Vsprad: 0.05,
  resistance_Ohm: 12,
  staticTorque_Nm: 0,
  runningTorque_Nm: 0,
};
const LAMP: Load = { kind: 'lamp', ratedVoltage_V: 4, ratedCurrent_A: 0.06 };

describe('steady circuit', () => {
  // Maximum power transfer, E = 3 V, R = 12 Ω: P = E²·R_L/(R + R_L)².
  it.each([
    [1, 0.053254],
    [5, 0.155709],
    [12, 0.1875],
    [50, 0.117066],
    [200, 0.04005],
  ])('puts into %d Ω the power %d W', (resistance_Ohm, expected_W) => {
    const { voltage_V, current_A } = steadyCircuit(
      GENERATOR,
      { kind: 'resistor', resistance_Ohm },
      3,
    );
    expect(voltage_V * current_A).toBeCloseTo(expected_W, 6);
  });

  it('balances generator and lamp', () => {
    const { voltage_V, current_A } = steadyCircuit(GENERATOR, LAMP, 3);
    expect(voltage_V + current_A * 12).toBeCloseTo(3, 9);
    expect(current_A).toBeCloseTo(voltage_V / loadResistance_Ohm(LAMP, voltage_V), 12);
  });
});

describe('lamp', () => {
  // Fink and Beaty, Standard Handbook for Electrical Engineers, 11th ed., p. 22-8: I ∝ V^0.55,
  // P ∝ V^1.55, and thus R ∝ V^0.45.
  it('follows the exponents 0.55 for current and 1.55 for power', () => {
    const current = (voltage_V: number) => voltage_V / loadResistance_Ohm(LAMP, voltage_V);
    const exponent = (f: (voltage_V: number) => number) => Math.log(f(3.2) / f(1.6)) / Math.log(2);
    expect(exponent(current)).toBeCloseTo(0.55, 12);
    expect(exponent((voltage_V) => voltage_V * current(voltage_V))).toBeCloseTo(1.55, 12);
    expect(current(4)).toBeCloseTo(0.06, 12);
  });

  it('has a tenth of its hot resistance when cold', () => {
    expect(loadResistance_Ohm(LAMP, 0)).toBeCloseTo(4 / 0.06 / 10, 9);
    expect(loadResistance_Ohm(LAMP, -0.1)).toBeCloseTo(4 / 0.06 / 10, 9);
  });
});
