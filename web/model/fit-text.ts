/** What is concluded of readings of the rig, as sentences and as a picture. */
import {
  decimalAt,
  firstPlace,
  NO_VALUE,
  prefixFor,
  UNIT_SPACE,
  writeMeasured,
} from '#core/metrology/format.ts';
import type { Fitted } from '#core/rotor/fitting/fitted.ts';
import {
  concludeGenerator,
  type GeneratorConclusion,
  type GeneratorReadings,
} from '#core/rotor/fitting/generator-readings.ts';
import type { LampFit } from '#core/rotor/fitting/fit-lamp.ts';
import { concludeLamp, type LampReadings } from '#core/rotor/fitting/lamp-readings.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { FitWords } from '../words/fit-words.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface FitPicture {
  readonly across: keyof FitWords['axis'];
  readonly up: keyof FitWords['axis'];
  /** What was read; null fitted: left out. */
  readonly points: readonly (Point & { readonly fitted: number | null })[];
  /** Along what was fitted. */
  readonly line: readonly Point[];
}

export interface ShownFit {
  readonly sentences: readonly string[];
  /** What is missing. */
  readonly gaps: readonly string[];
  /** Whether anything of it can be used. */
  readonly isUsable: boolean;
  readonly picture: FitPicture | null;
}

/** Volts at 1000 turns a minute, for 1 V·s/rad. */
const PER_1000_TURNS = (1000 * 2 * Math.PI) / 60;
const TURNS = 30 / Math.PI;

export function emfText(constant: Fitted, words: Catalogue): string {
  const { value, standardUncertainty } = constant;
  return withSpread({
    ...constant,
    value: PER_1000_TURNS * value,
    standardUncertainty: standardUncertainty === null ? null : PER_1000_TURNS * standardUncertainty,
  }, 'V', words);
}

export function ohmsText(resistance_Ohm: Fitted, words: Catalogue): string {
  return withSpread(resistance_Ohm, 'Ω', words);
}

/** "2.10 ± 0.03 V"; "2.10 V" where it is not known how sure it is. */
function withSpread(fitted: Fitted, unit: string, { number }: Catalogue): string {
  const { value, uncertainty } = writeMeasured(fitted, { unit, prefix: { symbol: '', exponent: 0 } });
  const spread = uncertainty === NO_VALUE ? '' : ` ± ${number(uncertainty)}`;
  return `${number(value)}${spread}${unit === '' ? '' : `${UNIT_SPACE}${unit}`}`;
}

/** Three digits, with a prefix. */
function plain(value: number, unit: string, { number }: Catalogue): string {
  const { symbol, exponent } = prefixFor(value);
  const scaled = value / 10 ** exponent;
  const text = scaled === 0 ? '0' : decimalAt(scaled, firstPlace(scaled) - 2);
  return `${number(text)}${UNIT_SPACE}${symbol}${unit}`;
}

export function shownGenerator(readings: GeneratorReadings, words: Catalogue): ShownFit {
  const say = words.fit;
  const found = concludeGenerator(readings);
  const { emfConstant_Vsprad, resistance_Ohm, resistanceAtMost_Ohm, emf_V, residuals_V } = found;
  const most_V = Math.max(0, ...residuals_V.map(Math.abs));
  return {
    sentences: [
      emfConstant_Vsprad && say.emf(emfText(emfConstant_Vsprad, words)),
      resistance_Ohm && say.winding(ohmsText(resistance_Ohm, words)),
      resistanceAtMost_Ohm && say.windingAtMost(plain(resistanceAtMost_Ohm, 'Ω', words)),
      emf_V && say.unloaded(withSpread(emf_V, 'V', words)),
      say.from(readings.steps.length),
      most_V > NOTHING_V ? say.scatter(plain(most_V, 'V', words)) : null,
    ].filter((one) => one !== null && one !== 0),
    gaps: found.gaps.map((gap) => say.gap[gap]),
    isUsable: emfConstant_Vsprad !== null || resistance_Ohm !== null,
    picture: residuals_V.length === 0 ? null : generatorPicture(readings, found),
  };
}

/** Less is the arithmetic's. */
const NOTHING_V = 1e-9;
const NOTHING_SHARE = 1e-9;

function generatorPicture(
  { speed, steps }: GeneratorReadings,
  found: GeneratorConclusion,
): FitPicture {
  const { emfConstant_Vsprad, resistance_Ohm, resistanceAtMost_Ohm, emf_V, residuals_V } = found;
  const drop_Ohm = resistance_Ohm?.value ?? resistanceAtMost_Ohm ?? 0;
  if (speed === 'read') {
    // What the winding takes is put back, so that all lie on one line through 0.
    const slope = emfConstant_Vsprad?.value ?? 0;
    const points = steps.map(({ rotorSpeed_radps, voltage_V, current_A }, i) => {
      const y = voltage_V + drop_Ohm * current_A;
      return { x: (rotorSpeed_radps ?? 0) * TURNS, y, fitted: y - residuals_V[i]! };
    });
    const end = Math.max(...points.map(({ x }) => x));
    return {
      across: 'speed',
      up: 'behind',
      points,
      line: [{ x: 0, y: 0 }, { x: end, y: (slope * end) / TURNS }],
    };
  }
  const points = steps.map(({ voltage_V, current_A }, i) => {
    return { x: 1000 * current_A, y: voltage_V, fitted: voltage_V - residuals_V[i]! };
  });
  const end = Math.max(...points.map(({ x }) => x));
  const start_V = emf_V?.value ?? 0;
  return {
    across: 'amps',
    up: 'volts',
    points,
    line: [{ x: 0, y: start_V }, { x: end, y: start_V - (drop_Ohm * end) / 1000 }],
  };
}

export function shownLamp(readings: LampReadings, words: Catalogue): ShownFit {
  const say = words.fit;
  const { fit, isResistor, residuals, gaps } = concludeLamp(readings);
  const most = Math.max(0, ...residuals.map((one) => Math.abs(one ?? 0)));
  const told = fit === null ? [] : [
    isResistor ? say.resistor : say.exponent(withSpread(fit.currentExponent, '', words)),
    say.lampAt(plain(fit.load.ratedVoltage_V, 'V', words), plain(fit.load.ratedCurrent_A, 'A', words)),
    fit.leftOut > 0 ? say.leftOut(fit.leftOut) : null,
  ];
  return {
    sentences: [
      ...told,
      say.from(readings.steps.length),
      most > NOTHING_SHARE ? say.scatter(`${words.number((100 * most).toPrecision(2))}${UNIT_SPACE}%`) : null,
    ].filter((one) => one !== null),
    gaps: gaps.map((gap) => say.gap[gap]),
    isUsable: fit !== null,
    picture: fit === null ? null : lampPicture(readings, fit, residuals),
  };
}

/** Of the curve, in which it looks smooth. */
const PIECES = 40;

function lampPicture(
  { steps }: LampReadings,
  fit: LampFit,
  residuals: readonly (number | null)[],
): FitPicture {
  const { lowest_V, load } = fit;
  const step_V = (load.ratedVoltage_V - lowest_V) / PIECES;
  return {
    across: 'volts',
    up: 'amps',
    points: steps.map(({ voltage_V, current_A }, i) => ({
      x: voltage_V,
      y: 1000 * current_A,
      fitted: residuals[i] === null ? null : 1000 * fit.currentAt_A(voltage_V),
    })),
    line: Array.from({ length: PIECES + 1 }, (_, i) => {
      const x = lowest_V + i * step_V;
      return { x, y: 1000 * fit.currentAt_A(x) };
    }),
  };
}
