/**
 * The rig at a level, for the prediction: from what was said, what the plan sets and what the
 * trials have read. What none of them tells is taken as usual for a bench, and as widely as it may
 * be (all such figures: common practice, no source).
 */
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import { airDensity } from '../../rotor/wind/air-density.ts';
import { anemometerUncertainty_mps } from '../../rotor/wind/anemometer.ts';
import { airOf, type RotorAndAir } from '../../rotor/wind/rotor-and-air.ts';
import { PLACE_UNCERTAINTY, rotorWind } from '../../rotor/wind/traverse.ts';
import type { BenchRig } from '../../rotor/bench-rig.ts';
import type { Load } from '../../rotor/circuit.ts';
import { USUAL_UNCERTAINTY, type RigUncertainty } from '../../rotor/doubt.ts';
import { figuresOf, type RigFigures, type RigFits } from '../../rotor/fitting/rig-fits.ts';
import { NOTHING_SAID } from '../../rotor/said-rig.ts';
import type { Setting } from '../plan/run-id.ts';
import type { ShownTrial } from '../trial.ts';

/** What was taken as usual because nobody has said or read it. */
export const ASSUMED = [
  'wind',
  'wind across the rotor',
  'angle',
  'blades',
  'chord',
  'generator',
  'winding',
  'friction',
  'load',
] as const;
export type Assumed = (typeof ASSUMED)[number];

/** What was fitted to readings of the rig itself. */
export type FittedPart = Extract<Assumed, 'generator' | 'winding' | 'load'>;

export interface DescribedRig {
  readonly rig: BenchRig;
  readonly angle_deg: number;
  readonly uncertainty: RigUncertainty;
  readonly assumed: readonly Assumed[];
  readonly fitted: readonly FittedPart[];
}

/** A value, how well it is known (as a share of it), and whether anybody has said it. */
interface Known {
  readonly value: number;
  readonly u: number;
  readonly isAssumed: boolean;
}

const USUAL = {
  wind_mps: 3.5,
  angle_deg: 20,
  blades: 3,
  /** Of the rotor's radius. */
  chordShare: 0.25,
  emfConstant_Vsprad: 0.02,
  windingResistance_Ohm: 10,
  staticTorque_Nm: 0.001,
  loadResistance_Ohm: 50,
} as const;
/** Of these, as shares; the angle's in degrees. */
const WIDE = {
  wind: 0.35,
  angle_deg: 10,
  blades: 0.4,
  chord: 0.4,
  emfConstant: 0.6,
  winding: 0.7,
  friction: 0.8,
  load: 0.8,
  /** Nobody has read the wind across the rotor, only at one place. */
  place: 0.1,
} as const;
/** Below it any anemometer stands still. */
const LEAST_WIND_mps = 0.1;
/** Friction while turning, of what just sets the shaft turning. */
const RUNNING_SHARE = 0.5;

interface Level {
  readonly said: RotorAndAir;
  readonly fits: RigFits;
  /** Of what the plan varies: "angle_deg", "length_m", "blades", "load_Ohm". */
  readonly setting: Setting;
  /** Whose wind and load it has. */
  readonly trials: readonly ShownTrial[];
}

/** Null without a radius, or where blades are called by names without numbers. */
export function describedRig({ said, fits, setting, trials }: Level): DescribedRig | null {
  const rig = said.rig ?? NOTHING_SAID;
  const radius_m = radiusOf(said, setting);
  const asked = ['angle_deg', 'blades', 'load_Ohm'].map((key) => setting[key]);
  if (radius_m === null || asked.some((value) => typeof value === 'string')) return null;
  const wind = windOf(said, trials);
  const blades = known(setting['blades'] ?? rig.blades, USUAL.blades, 0, WIDE.blades);
  const chord = known(rig.chord_m, USUAL.chordShare * radius_m, 0.03, WIDE.chord);
  const angle = known(setting['angle_deg'] ?? rig.angle_deg, USUAL.angle_deg, 1, WIDE.angle_deg);
  const figures = figuresOf(fits);
  const emf =
    fitted(figures.emfConstant_Vsprad) ??
    known(rig.emfConstant_Vsprad, USUAL.emfConstant_Vsprad, 0.03, WIDE.emfConstant);
  const winding =
    fitted(figures.windingResistance_Ohm) ??
    known(rig.windingResistance_Ohm, USUAL.windingResistance_Ohm, 0.05, WIDE.winding);
  const friction = known(rig.staticTorque_Nm, USUAL.staticTorque_Nm, 0.3, WIDE.friction);
  const load = loadOf(setting['load_Ohm'], figures.load, rig.load, trials);
  const isAssumed: Readonly<Record<Assumed, boolean>> = {
    wind: wind.isAssumed,
    'wind across the rotor': said.traverse === null,
    angle: angle.isAssumed,
    blades: blades.isAssumed,
    chord: chord.isAssumed,
    generator: emf.isAssumed,
    winding: winding.isAssumed,
    friction: friction.isAssumed,
    load: load.isAssumed,
  };
  const isFitted: Readonly<Record<FittedPart, boolean>> = {
    generator: figures.emfConstant_Vsprad !== null,
    winding: figures.windingResistance_Ohm !== null,
    load: load.isFitted === true,
  };
  return {
    rig: {
      airDensity_kgpm3: airDensity(airOf(said.air).air).density_kgpm3,
      windSpeed_mps: wind.value,
      rotor: {
        radius_m,
        hubRadius_m: said.hubRadius_m,
        chord_m: chord.value,
        blades: blades.value,
        camber: 0,
        jetRadius_m: rig.jetRadius_m,
      },
      generator: {
        emfConstant_Vsprad: emf.value,
        resistance_Ohm: winding.value,
        staticTorque_Nm: friction.value,
        runningTorque_Nm: RUNNING_SHARE * friction.value,
      },
      load: load.load,
    },
    angle_deg: angle.value,
    uncertainty: {
      windSpeed: wind.u,
      angle_deg: angle.u,
      emfConstant: emf.u,
      windingResistance: winding.u,
      friction: friction.u,
      load: load.u,
      // Blades add up to one width: an unknown number is as good as an unknown width.
      chord: Math.hypot(chord.u, blades.u),
    },
    assumed: ASSUMED.filter((name) => isAssumed[name]),
    fitted: FITTABLE.filter((part) => isFitted[part]),
  };
}

const FITTABLE = ['generator', 'winding', 'load'] as const satisfies readonly FittedPart[];

function fitted(figure: RigFigures['emfConstant_Vsprad']): Known | null {
  return figure && { ...figure, isAssumed: false };
}

function known(said: number | string | null, usual: number, u: number, wide: number): Known {
  return typeof said === 'number'
    ? { value: said, u, isAssumed: false }
    : { value: usual, u: wide, isAssumed: true };
}

/** Where blade length is what is varied, the level's own: a blade begins at the hub's rim. */
function radiusOf(said: RotorAndAir, setting: Setting): number | null {
  const length_m = setting['length_m'];
  if (length_m === undefined) return said.radius_m;
  return typeof length_m === 'number' ? said.hubRadius_m + length_m : null;
}

/** Over the rotor: as the trials have read it, else as it was said. */
function windOf({ anemometer, traverse, rig }: RotorAndAir, trials: readonly ShownTrial[]): Known {
  const read = trials
    .map(({ windSpeed_mps }) => windSpeed_mps?.value ?? 0)
    .filter((value) => value > LEAST_WIND_mps);
  const reading = read.length > 0 ? meanOf(read) : (rig?.windSpeed_mps ?? null);
  const { value, u, isAssumed } = known(
    reading,
    USUAL.wind_mps,
    reading === null || anemometer === null
      ? USUAL_UNCERTAINTY.windSpeed
      : anemometerUncertainty_mps(anemometer, reading) / reading,
    WIDE.wind,
  );
  if (traverse === null) return { value, u: Math.hypot(u, WIDE.place), isAssumed };
  const { placeFactor } = rotorWind(traverse);
  return { value: placeFactor * value, u: Math.hypot(u, PLACE_UNCERTAINTY), isAssumed };
}

interface KnownLoad extends Omit<Known, 'value'> {
  readonly load: Load;
  readonly isFitted?: true;
}

/** What the plan sets; else what was fitted; else what was said; else volts over amperes of the trials. */
function loadOf(
  set: number | string | undefined,
  fitted: RigFigures['load'],
  said: Load | null,
  trials: readonly ShownTrial[],
): KnownLoad {
  const u = USUAL_UNCERTAINTY.load;
  if (typeof set === 'number') return { load: resistor(set), u, isAssumed: false };
  if (fitted !== null) return { load: fitted.value, u: fitted.u, isAssumed: false, isFitted: true };
  if (said !== null) return { load: said, u, isAssumed: false };
  const logs = trials.flatMap(({ voltage_V, current_A }) => {
    const resistance_Ohm = (voltage_V?.value ?? NaN) / (current_A?.value ?? NaN);
    return resistance_Ohm > 0 && Number.isFinite(resistance_Ohm) ? Math.log(resistance_Ohm) : [];
  });
  if (logs.length === 0) {
    return { load: resistor(USUAL.loadResistance_Ohm), u: WIDE.load, isAssumed: true };
  }
  // A lamp's differs from trial to trial.
  const spread = logs.length > 1 ? standardDeviationOf(logs) : 0;
  return { load: resistor(Math.exp(meanOf(logs))), u: Math.hypot(u, spread), isAssumed: false };
}

function resistor(resistance_Ohm: number): Load {
  return { kind: 'resistor', resistance_Ohm };
}
