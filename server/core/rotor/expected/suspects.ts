/**
 * What may be otherwise at a rig than was said of it, each a change of one thing by so many
 * standard uncertainties, or a slip of a unit. What is a likely slip is common practice, no source.
 */
import type { BenchRig } from '../bench-rig.ts';
import { heavier, type RigUncertainty } from '../doubt.ts';

export const SUSPECTS = [
  'friction',
  'load',
  'blade angle',
  'wind speed',
  'generator constant',
  'winding resistance',
  'jet narrower than the rotor',
  'wind in km/h',
  'wind in mph',
  'diameter for radius',
  'angle from the axis',
  'power in mW',
] as const;
export type Suspect = (typeof SUSPECTS)[number];

/** A rig and one of its levels, as they may truly be; `reading` is what 1 W reads as. */
export interface Suspected {
  readonly rig: BenchRig;
  readonly angle_deg: number;
  readonly reading: number;
}

export interface Suspicion {
  readonly suspect: Suspect;
  /** How many standard uncertainties it may be changed by, at most; a slip is made or not. */
  readonly stretches: readonly number[];
  /** What the change is for a stretch: a factor, or degrees. */
  readonly change: (stretch: number, uncertainty: RigUncertainty) => number;
  readonly apply: (asSaid: Suspected, change: number) => Suspected;
}

/** A slip of a unit counts as far-fetched as this many standard uncertainties. */
const SLIP = 3;
/** Of the jet's radius nothing is known: it may end a tenth of the rotor's radius inside the tips. */
const JET_SHARE = 0.1;

/** Finer where it is likelier. */
const ONE_WAY = [0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7, 8, 9, 10, 11, 12];
const BOTH_WAYS = [...ONE_WAY, ...ONE_WAY.map((stretch) => -stretch)];
const INWARDS = ONE_WAY.filter((stretch) => stretch < 8);

export const SUSPICIONS: readonly Suspicion[] = [
  byFactor('friction', 'friction', ({ generator, ...rig }, factor) => ({
    ...rig,
    generator: {
      ...generator,
      staticTorque_Nm: generator.staticTorque_Nm * factor,
      runningTorque_Nm: generator.runningTorque_Nm * factor,
    },
  })),
  byFactor('load', 'load', (rig, factor) => ({ ...rig, load: heavier(rig.load, factor) })),
  {
    suspect: 'blade angle',
    stretches: BOTH_WAYS,
    change: (stretch, { angle_deg }) => stretch * angle_deg,
    apply: (said, offset_deg) => ({ ...said, angle_deg: within90(said.angle_deg + offset_deg) }),
  },
  byFactor('wind speed', 'windSpeed', (rig, factor) => ({
    ...rig,
    windSpeed_mps: rig.windSpeed_mps * factor,
  })),
  byFactor('generator constant', 'emfConstant', ({ generator, ...rig }, factor) => ({
    ...rig,
    generator: { ...generator, emfConstant_Vsprad: generator.emfConstant_Vsprad * factor },
  })),
  byFactor('winding resistance', 'windingResistance', ({ generator, ...rig }, factor) => ({
    ...rig,
    generator: { ...generator, resistance_Ohm: generator.resistance_Ohm * factor },
  })),
  {
    suspect: 'jet narrower than the rotor',
    stretches: INWARDS,
    change: (stretch) => 1 - JET_SHARE * stretch,
    apply: onRig((rig, share) => withRotor(rig, { jetRadius_m: share * rig.rotor.radius_m })),
  },
  slip('wind in km/h', 1 / 3.6, onRig((rig, factor) => slowed(rig, factor))),
  slip('wind in mph', 0.44704, onRig((rig, factor) => slowed(rig, factor))),
  slip('diameter for radius', 0.5, onRig((rig, factor) => smaller(rig, factor))),
  slip('angle from the axis', -1, (said) => ({ ...said, angle_deg: 90 - said.angle_deg })),
  slip('power in mW', 1000, (said, factor) => ({ ...said, reading: said.reading * factor })),
];

function byFactor(
  suspect: Suspect,
  uncertain: keyof RigUncertainty,
  change: (rig: BenchRig, factor: number) => BenchRig,
): Suspicion {
  return {
    suspect,
    stretches: BOTH_WAYS,
    change: (stretch, uncertainty) => Math.exp(stretch * uncertainty[uncertain]),
    apply: onRig(change),
  };
}

function slip(suspect: Suspect, factor: number, apply: Suspicion['apply']): Suspicion {
  return { suspect, stretches: [SLIP], change: () => factor, apply };
}

function onRig(change: (rig: BenchRig, factor: number) => BenchRig): Suspicion['apply'] {
  return (said, factor) => ({ ...said, rig: change(said.rig, factor) });
}

function withRotor(rig: BenchRig, change: Partial<BenchRig['rotor']>): BenchRig {
  return { ...rig, rotor: { ...rig.rotor, ...change } };
}

function slowed(rig: BenchRig, factor: number): BenchRig {
  return { ...rig, windSpeed_mps: rig.windSpeed_mps * factor };
}

/** The hub was measured as it is; it can't be larger than the rotor, though. */
function smaller(rig: BenchRig, factor: number): BenchRig {
  const radius_m = rig.rotor.radius_m * factor;
  return withRotor(rig, { radius_m, hubRadius_m: Math.min(rig.rotor.hubRadius_m, radius_m / 2) });
}

function within90(angle_deg: number): number {
  return Math.min(Math.max(angle_deg, 0), 90);
}
