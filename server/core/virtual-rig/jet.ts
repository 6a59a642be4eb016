/** The jet of the virtual rig's fan: what it is, and the noises that ride on it. */
import type { ColouredNoiseParameters } from './coloured-noise.ts';

export interface Jet {
  /** Time constant of the fan's run-up and run-down. */
  readonly fanLag_s: number;
  /** Loss of wind once the fan's motor is warm, relative, and how fast it comes. */
  readonly droop: number;
  readonly droopTime_s: number;
  /** Turbulence as the whole rotor feels it: less than at a point, for eddies average out. */
  readonly rotorIntensity: number;
  /** Turbulence at the anemometer's point. */
  readonly pointIntensity: number;
  readonly integralTime_s: number;
  /** Slow wander of the whole jet (mains, room air): standard deviation relative to the wind. */
  readonly wander: number;
  readonly wanderTime_s: number;
}

/** Turbulence in two eddy sizes: share of the variance and of the integral time. */
const EDDIES = [
  { variance: 0.75, time: 1.15 },
  { variance: 0.25, time: 0.3 },
] as const;

/** Turbulence as the rotor feels it, relative to the wind. */
export function eddiesOf(jet: Jet): ColouredNoiseParameters[] {
  return EDDIES.map(({ variance, time }) => ({
    standardDeviation: jet.rotorIntensity * Math.sqrt(variance),
    correlationTime_s: jet.integralTime_s * time,
  }));
}

/** Slow wander of the whole jet, relative to the wind. */
export function wanderOf(jet: Jet): ColouredNoiseParameters {
  return { standardDeviation: jet.wander, correlationTime_s: jet.wanderTime_s };
}
