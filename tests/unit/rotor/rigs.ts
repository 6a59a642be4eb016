/** Rigs for the tests of the prediction. */
import type { BenchRig } from '#core/rotor/bench-rig.ts';
import type { Load } from '#core/rotor/circuit.ts';

export interface RigChange {
  readonly windSpeed_mps?: number;
  readonly radius_m?: number;
  readonly hubRadius_m?: number;
  readonly chord_m?: number;
  readonly blades?: number;
  readonly camber?: number;
  readonly jetRadius_m?: number | null;
  readonly emfConstant_Vsprad?: number;
  readonly resistance_Ohm?: number;
  readonly staticTorque_Nm?: number;
  readonly runningTorque_Nm?: number;
  readonly load?: Load;
}

/** Three flat blades of 17 cm by 5 cm on a small motor and 50 Ω, in 4 m/s; changed as said. */
export function rigWith(change: RigChange = {}): BenchRig {
  const { windSpeed_mps = 4, load = { kind: 'resistor', resistance_Ohm: 50 }, ...rest } = change;
  const { emfConstant_Vsprad = 0.02, resistance_Ohm = 10 } = rest;
  const { staticTorque_Nm = 0.001, runningTorque_Nm = 0.0005 } = rest;
  const { radius_m = 0.2, hubRadius_m = 0.03, chord_m = 0.05, blades = 3 } = rest;
  const { camber = 0, jetRadius_m = null } = rest;
  return {
    airDensity_kgpm3: 1.2,
    windSpeed_mps,
    rotor: { radius_m, hubRadius_m, chord_m, blades, camber, jetRadius_m },
    generator: { emfConstant_Vsprad, resistance_Ohm, staticTorque_Nm, runningTorque_Nm },
    load,
  };
}
