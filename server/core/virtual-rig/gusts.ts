/**
 * What gusts do to the mean torque, to second order. The noise-free twin of the plant needs it, so
 * that its level is the mean level of the noisy plant: gusts add their variance to the drive
 * (the mean of U² is more than the square of the mean), but the rotor follows them a little, and
 * then brakes more when the wind is stronger.
 *
 * For a gust u (relative to the wind) with variance σ² and correlation time T, a rotor with inertia
 * J and damping d driven by K·u has E[ω′u] = K σ²/(d + J/T) and E[ω′²] = K E[ω′u]/d: moments of a
 * first-order lag behind an Ornstein-Uhlenbeck process.
 */
import type { ColouredNoiseParameters } from './coloured-noise.ts';
import { slip, torqueScale, type Flow, type Rotor, type TorqueLine } from './rotor.ts';

export interface GustyRotor {
  readonly rotor: Rotor;
  readonly line: TorqueLine;
  readonly flow: Flow;
  readonly speed_radps: number;
  /** Torque per speed that generator and load take, N·m·s. */
  readonly loadDamping_Nms: number;
  /** The gusts, standard deviations relative to the wind. */
  readonly gusts: readonly ColouredNoiseParameters[];
}

/** Mean torque with gusts less the torque in the mean wind, N·m. */
export function gustTorque_Nm(gusty: GustyRotor): number {
  const { rotor, line, flow, speed_radps, loadDamping_Nms, gusts } = gusty;
  const wind = flow.wind_mps;
  const scale = torqueScale(rotor, line, flow);
  const airBrake_Nms = scale * slip(rotor, line) * wind;
  const damping_Nms = airBrake_Nms + 2 * rotor.windage_Nms2 * speed_radps + loadDamping_Nms;
  const gain_Nm = 2 * scale * wind * wind - airBrake_Nms * speed_radps;
  let torque_Nm = 0;
  for (const { standardDeviation, correlationTime_s } of gusts) {
    const variance = standardDeviation ** 2;
    const together = (gain_Nm * variance) / (damping_Nms + rotor.inertia_kgm2 / correlationTime_s);
    const speedVariance = (gain_Nm * together) / damping_Nms;
    torque_Nm +=
      scale * wind * wind * variance - airBrake_Nms * together - rotor.windage_Nms2 * speedVariance;
  }
  return torque_Nm;
}
