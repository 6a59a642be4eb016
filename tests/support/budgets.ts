/** Trials and instruments that budgets are made of in tests. */
import type { BudgetedTrial } from '#core/experiment/budget/rows.ts';
import type { Instrument } from '#core/instrument/instrument.ts';
import { ANEMOMETERS } from '#core/rotor/wind/anemometer.ts';
import type { RotorAndAir } from '#core/rotor/wind/rotor-and-air.ts';

const CONVERTER = { reference_V: 5, referenceTolerance: 0.05, bits: 10, partsPerStep: 64 };

/** 20 kΩ over 10 kΩ, and 0.5 Ω with an amplifier of 20, into one converter of 5 V ± 5 %. */
export const DIVIDER_AND_SHUNT: Instrument = {
  voltage: {
    kind: 'divider',
    isZeroed: false,
    divider: {
      upper_Ohm: 20_000,
      upperTolerance: 0.01,
      lower_Ohm: 10_000,
      lowerTolerance: 0.01,
      converter: CONVERTER,
    },
  },
  current: {
    kind: 'shunt',
    isZeroed: false,
    shunt: {
      resistance_Ohm: 0.5,
      tolerance: 0.01,
      amplifierGain: 20,
      amplifierGainTolerance: 0.01,
      amplifierOffset_V: 0.5e-3,
      amplifierMargin_V: 0,
      converter: CONVERTER,
    },
  },
};

/** A rotor of 0.4 m in a room of 20 °C at sea level, with a cheap vane beside it. */
export const ROTOR_AND_AIR: RotorAndAir = {
  radius_m: 0.2,
  hubRadius_m: 0,
  air: { temperature_degC: 20, pressure_Pa: 101_325, altitude_m: null, relativeHumidity: 0.5 },
  anemometer: ANEMOMETERS.vane,
  traverse: null,
};

/** A settled trial; V, A and W. */
export function budgetedTrial(of: {
  id?: number;
  v: number;
  i: number;
  u_V?: number;
  u_A?: number;
  u_W?: number;
  degreesOfFreedom?: number;
}): BudgetedTrial {
  const { id = 1, v, i, u_V = 0, u_A = 0, u_W = 0, degreesOfFreedom = 30 } = of;
  const measured = (value: number, standardUncertainty: number) => {
    return { value, standardUncertainty, degreesOfFreedom };
  };
  return {
    id,
    basis: 'settled',
    rotorStill: false,
    voltage_V: measured(v, u_V),
    current_A: measured(i, u_A),
    power_W: measured(v * i, u_W),
    correction: null,
  };
}
