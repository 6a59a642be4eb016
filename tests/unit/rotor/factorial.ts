/** A full factorial of rigs that a school or workshop could build: 3888 of them. */
import type { BenchRig } from '#core/rotor/bench-rig.ts';
import { windForce_N } from '#core/rotor/bench-rig.ts';
import { rigWith } from './rigs.ts';

const FACTORS = {
  windSpeed_mps: [2.5, 4, 6],
  radius_m: [0.12, 0.2, 0.3],
  chordShare: [0.15, 0.25, 0.35],
  blades: [2, 3, 4],
  emfConstant_Vsprad: [0.005, 0.02, 0.06, 0.15],
  resistance_Ohm: [10, 50, 200],
  staticTorque_Nm: [0.0002, 0.001, 0.003, 0.006],
} as const;
type Levels = Record<keyof typeof FACTORS, number>;

const names = Object.keys(FACTORS) as (keyof typeof FACTORS)[];
export const RIG_COUNT = names.reduce((count, name) => count * FACTORS[name].length, 1);

/** The rig of a number from 0 to RIG_COUNT − 1, the last factor changing first. */
export function factorialRig(number: number): BenchRig {
  let rest = number;
  const levels = {} as Levels;
  for (const name of [...names].reverse()) {
    const values = FACTORS[name];
    levels[name] = values[rest % values.length]!;
    rest = Math.floor(rest / values.length);
  }
  const { windSpeed_mps, radius_m, chordShare, blades, emfConstant_Vsprad } = levels;
  const { resistance_Ohm, staticTorque_Nm } = levels;
  return rigWith({
    windSpeed_mps,
    radius_m,
    hubRadius_m: 0.15 * radius_m,
    chord_m: chordShare * radius_m,
    blades,
    emfConstant_Vsprad,
    staticTorque_Nm,
    runningTorque_Nm: staticTorque_Nm / 2,
    load: { kind: 'resistor', resistance_Ohm },
  });
}

/** How hard the load brakes: Λ = k² / [(R_int + R_L) · ½ρAR²U]. */
export function loading(rig: BenchRig): number {
  const { generator, load, rotor, windSpeed_mps } = rig;
  const resistance_Ohm = generator.resistance_Ohm + (load.kind === 'resistor' ? load.resistance_Ohm : 0);
  const scale_Nms = (windForce_N(rig) * rotor.radius_m ** 2) / windSpeed_mps;
  return generator.emfConstant_Vsprad ** 2 / (resistance_Ohm * scale_Nms);
}
