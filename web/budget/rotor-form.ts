/** What is typed of rotor and air, in the units of the bench, and what it says. */
import { z } from 'zod';
import { readNumber } from '#core/metrology/typed-number.ts';
import { AIR_LIMITS, type HeardAir } from '#core/rotor/wind/air.ts';
import { ANEMOMETERS } from '#core/rotor/wind/anemometer.ts';
import { MOST_RADIUS_m, type RotorAndAir } from '#core/rotor/wind/rotor-and-air.ts';
import { widestChord_m } from '#core/rotor/rotor.ts';
import { MOST_RIPPLES, NOTHING_SAID, type SaidRig } from '#core/rotor/said-rig.ts';
import { equalAreaRadii_m, MOST_RINGS } from '#core/rotor/wind/traverse.ts';

/** Of the rig, for the prediction; all may stay empty. */
export const RIG_FIELDS = [
  'blades',
  'chord',
  'angle',
  'wind',
  'jet',
  'emf',
  'winding',
  'ripples',
  'friction',
  'loadResistance',
  'lampVoltage',
  'lampCurrent',
] as const;
export type RigFieldName = (typeof RIG_FIELDS)[number];

const FIELDS = [
  'radius',
  'hub',
  'temperature',
  'pressure',
  'altitude',
  'humidity',
  'anemometer',
  'rings',
  'atPlace',
  ...RIG_FIELDS,
] as const;
export type RotorFieldName = (typeof FIELDS)[number];

const typed = z.string().max(100);
function eachOfRig<Made>(make: (name: RigFieldName) => Made): Record<RigFieldName, Made> {
  const made = RIG_FIELDS.map((name) => [name, make(name)] as const);
  return Object.fromEntries(made) as Record<RigFieldName, Made>;
}

export const RotorFormSchema = z.object({
  radius: typed,
  hub: typed,
  temperature: typed,
  pressure: typed,
  altitude: typed,
  humidity: typed,
  anemometer: z.enum(['unknown', 'vane', 'cups']),
  rings: typed,
  atPlace: typed,
  ...eachOfRig(() => typed.default('')),
});
export type RotorForm = Readonly<z.infer<typeof RotorFormSchema>>;

export const EMPTY_ROTOR_FORM: RotorForm = {
  radius: '',
  hub: '',
  temperature: '',
  pressure: '',
  altitude: '',
  humidity: '',
  anemometer: 'unknown',
  rings: '',
  atPlace: '',
  ...eachOfRig(() => ''),
};

/** As if nothing were typed there: what the plan sets is not shown, and stands in nobody's way. */
export function withoutFields(form: RotorForm, left: ReadonlySet<RigFieldName>): RotorForm {
  const blank = [...left].map((name) => [name, ''] as const);
  return { ...form, ...Object.fromEntries(blank) };
}

type NumberName = Exclude<RotorFieldName, 'anemometer' | 'rings'>;

/** What one typed unit is in SI (a divisor, so that no digit is spoilt), and the limits as typed. */
const UNITS: Readonly<Record<NumberName, { perSi: number; low: number; high: number }>> = {
  radius: { perSi: 1000, low: 5, high: 1000 * MOST_RADIUS_m },
  hub: { perSi: 1000, low: 0, high: 1000 * MOST_RADIUS_m },
  temperature: { perSi: 1, ...AIR_LIMITS.temperature_degC },
  pressure: { perSi: 0.01, low: 500, high: 1100 },
  altitude: { perSi: 1, ...AIR_LIMITS.altitude_m },
  humidity: { perSi: 100, low: 0, high: 100 },
  atPlace: { perSi: 1, low: 0.1, high: 40 },
  blades: { perSi: 1, low: 1, high: 24 },
  chord: { perSi: 1000, low: 1, high: 1000 },
  angle: { perSi: 1, low: 0, high: 90 },
  wind: { perSi: 1, low: 0.1, high: 40 },
  /** A diameter, as it is measured; kept as a radius. */
  jet: { perSi: 2000, low: 20, high: 20_000 },
  /** Volts at 1000 turns a minute. */
  emf: { perSi: (1000 * 2 * Math.PI) / 60, low: 0.02, high: 1000 },
  winding: { perSi: 1, low: 0.01, high: 1e5 },
  ripples: { perSi: 1, low: 1, high: MOST_RIPPLES },
  friction: { perSi: 1000, low: 0, high: 1e4 },
  loadResistance: { perSi: 1, low: 0.01, high: 1e6 },
  lampVoltage: { perSi: 1, low: 0.1, high: 60 },
  lampCurrent: { perSi: 1, low: 0.001, high: 20 },
};

export type RotorProblem =
  | {
      readonly kind:
        | 'needed'
        | 'number'
        | 'hub'
        | 'oneAir'
        | 'rings'
        | 'together'
        | 'whole'
        | 'disc'
        | 'jet'
        | 'oneLoad';
    }
  | { readonly kind: 'between'; readonly low: number; readonly high: number };
export type RotorProblems = Readonly<Partial<Record<RotorFieldName, RotorProblem>>>;

export type ReadRotorForm =
  | { readonly described: RotorAndAir }
  | { readonly problems: RotorProblems };

/** @param isLengthVaried the plan changes the blade length: each trial brings its own radius */
export function readRotorForm(form: RotorForm, isLengthVaried: boolean): ReadRotorForm {
  const problems: Partial<Record<RotorFieldName, RotorProblem>> = {};
  const read = (name: NumberName): number | null => {
    const found = readField(name, form[name]);
    if (typeof found !== 'object' || found === null) return found;
    problems[name] = found;
    return null;
  };
  const radius_m = read('radius');
  const hubRadius_m = read('hub');
  const described: RotorAndAir = {
    radius_m,
    hubRadius_m: hubRadius_m ?? 0,
    air: {
      temperature_degC: read('temperature'),
      pressure_Pa: read('pressure'),
      altitude_m: read('altitude'),
      relativeHumidity: read('humidity'),
    },
    anemometer: form.anemometer === 'unknown' ? null : ANEMOMETERS[form.anemometer],
    traverse: null,
  };
  const needed = isLengthVaried ? 'hub' : 'radius';
  if (form[needed].trim() === '') problems[needed] = { kind: 'needed' };
  if (radius_m !== null && hubRadius_m !== null && hubRadius_m >= radius_m) {
    problems.hub = { kind: 'hub' };
  }
  // One follows from the other: of two that differ nobody could tell which is meant.
  if (form.pressure.trim() !== '' && form.altitude.trim() !== '') {
    problems.altitude ??= { kind: 'oneAir' };
  }
  const rig = readRig(read);
  if (rig.jetRadius_m !== null && rig.jetRadius_m <= (hubRadius_m ?? 0)) {
    problems.jet = { kind: 'jet' };
  }
  Object.assign(problems, { ...rigProblems(rig, radius_m, form), ...problems });
  const rings_mps = readRings(form.rings);
  const atPlace_mps = read('atPlace');
  if (rings_mps === 'rings') problems.rings = { kind: 'rings' };
  else if ((form.rings.trim() === '') !== (form.atPlace.trim() === '')) {
    problems[form.rings.trim() === '' ? 'rings' : 'atPlace'] = { kind: 'together' };
  }
  if (Object.keys(problems).length > 0) return { problems };
  const isRigSaid = RIG_FIELDS.some((name) => form[name].trim() !== '');
  const isTraversed = rings_mps !== 'rings' && rings_mps !== null && atPlace_mps !== null;
  return {
    described: {
      ...described,
      traverse: isTraversed ? { rings_mps, atPlace_mps } : null,
      ...(isRigSaid ? { rig } : {}),
    },
  };
}

type Problems = Partial<Record<RotorFieldName, RotorProblem>>;

function readRig(read: (name: NumberName) => number | null): SaidRig {
  const [ratedVoltage_V, ratedCurrent_A] = [read('lampVoltage'), read('lampCurrent')];
  const resistance_Ohm = read('loadResistance');
  const isLamp = ratedVoltage_V !== null && ratedCurrent_A !== null;
  const ripplesPerTurn = read('ripples');
  const lamp = isLamp ? ({ kind: 'lamp', ratedVoltage_V, ratedCurrent_A } as const) : null;
  return {
    blades: read('blades'),
    chord_m: read('chord'),
    angle_deg: read('angle'),
    windSpeed_mps: read('wind'),
    jetRadius_m: read('jet'),
    emfConstant_Vsprad: read('emf'),
    windingResistance_Ohm: read('winding'),
    ...(ripplesPerTurn !== null && { ripplesPerTurn }),
    staticTorque_Nm: read('friction'),
    load: resistance_Ohm === null ? lamp : { kind: 'resistor', resistance_Ohm },
  };
}

/** What each number allows, but not the two together. */
function rigProblems(
  { blades, chord_m, ripplesPerTurn }: SaidRig,
  radius_m: number | null,
  form: RotorForm,
): Problems {
  const isTyped = (name: RigFieldName): boolean => form[name].trim() !== '';
  const problems: Problems = {};
  if (!Number.isInteger(ripplesPerTurn ?? 0)) problems.ripples = { kind: 'whole' };
  if (blades !== null && !Number.isInteger(blades)) problems.blades = { kind: 'whole' };
  else if (blades !== null && chord_m !== null && radius_m !== null) {
    if (chord_m > widestChord_m({ radius_m, blades })) problems.chord = { kind: 'disc' };
  }
  const [hasVoltage, hasCurrent] = [isTyped('lampVoltage'), isTyped('lampCurrent')];
  if (hasVoltage !== hasCurrent) {
    problems[hasVoltage ? 'lampCurrent' : 'lampVoltage'] = { kind: 'together' };
  }
  if (isTyped('loadResistance') && (hasVoltage || hasCurrent)) {
    problems.loadResistance = { kind: 'oneLoad' };
  }
  return problems;
}

/** SI; null where nothing is typed. */
function readField(name: NumberName, text: string): number | RotorProblem | null {
  if (text.trim() === '') return null;
  const value = readNumber(text);
  if (value === null) return { kind: 'number' };
  const { perSi, low, high } = UNITS[name];
  return value < low || value > high ? { kind: 'between', low, high } : value / perSi;
}

function readRings(text: string): number[] | 'rings' | null {
  const words = text.trim().split(/[\s;]+/).filter((word) => word !== '');
  if (words.length === 0) return null;
  const values = words.map(readNumber);
  const { low, high } = UNITS.atPlace;
  const areWinds = values.every((value) => value !== null && value >= low && value <= high);
  if (!areWinds || words.length < 2 || words.length > MOST_RINGS) return 'rings';
  return values.map(Number);
}

/** A traverse begins with three rings. */
const FIRST_RINGS = 3;

/** Where to hold the anemometer for as many readings as are typed, mm; null without a radius. */
export function ringRadii_mm(form: RotorForm): readonly number[] | null {
  const radius_m = readField('radius', form.radius);
  const hub = readField('hub', form.hub) ?? 0;
  if (typeof radius_m !== 'number' || typeof hub !== 'number' || hub >= radius_m) return null;
  const rings = readRings(form.rings);
  const count = rings === null || rings === 'rings' ? FIRST_RINGS : rings.length;
  return equalAreaRadii_m({ radius_m, hubRadius_m: hub }, count).map((r) => Math.round(1000 * r));
}

const HEARD = {
  temperature: 'temperature_degC',
  pressure: 'pressure_Pa',
  humidity: 'relativeHumidity',
} as const;

/** What the board of the newest recording says of the air, as it would be typed. */
export function heardText(name: RotorFieldName, airs: readonly HeardAir[]): string | null {
  const heard = airs.at(-1);
  if (name !== 'temperature' && name !== 'pressure' && name !== 'humidity') return null;
  const value = heard?.[HEARD[name]] ?? null;
  return value === null ? null : String(Number((value * UNITS[name].perSi).toPrecision(4)));
}

/** What the session holds, as it would be typed. @param number as the language writes it */
export function rotorFormOf(said: RotorAndAir, number: (decimal: string) => string): RotorForm {
  const text = (name: NumberName, value: number | null): string =>
    value === null ? '' : number(String(Number((value * UNITS[name].perSi).toPrecision(8))));
  const spec = JSON.stringify(said.anemometer);
  const kind = (['vane', 'cups'] as const).find((one) => JSON.stringify(ANEMOMETERS[one]) === spec);
  return {
    radius: text('radius', said.radius_m),
    hub: text('hub', said.hubRadius_m),
    temperature: text('temperature', said.air.temperature_degC),
    pressure: text('pressure', said.air.pressure_Pa),
    altitude: text('altitude', said.air.altitude_m),
    humidity: text('humidity', said.air.relativeHumidity),
    anemometer: kind ?? 'unknown',
    rings: (said.traverse?.rings_mps ?? []).map((one) => number(String(one))).join(' '),
    atPlace: text('atPlace', said.traverse?.atPlace_mps ?? null),
    ...rigFormOf(said.rig ?? NOTHING_SAID, text),
  };
}

function rigFormOf(
  rig: SaidRig,
  text: (name: NumberName, value: number | null) => string,
): Record<RigFieldName, string> {
  const { load } = rig;
  return {
    blades: text('blades', rig.blades),
    chord: text('chord', rig.chord_m),
    angle: text('angle', rig.angle_deg),
    wind: text('wind', rig.windSpeed_mps),
    jet: text('jet', rig.jetRadius_m),
    emf: text('emf', rig.emfConstant_Vsprad),
    winding: text('winding', rig.windingResistance_Ohm),
    ripples: text('ripples', rig.ripplesPerTurn ?? null),
    friction: text('friction', rig.staticTorque_Nm),
    loadResistance: text('loadResistance', load?.kind === 'resistor' ? load.resistance_Ohm : null),
    lampVoltage: text('lampVoltage', load?.kind === 'lamp' ? load.ratedVoltage_V : null),
    lampCurrent: text('lampCurrent', load?.kind === 'lamp' ? load.ratedCurrent_A : null),
  };
}
