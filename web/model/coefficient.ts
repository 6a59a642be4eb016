/** What the page shows of the wind's power and of the share that the rig made of it. */
import type { TrialCoefficient } from '#core/experiment/budget/coefficient-of-trial.ts';
import {
  decimalAt,
  NO_VALUE,
  placeOf,
  prefixFor,
  UNIT_SPACE,
  writeMeasured,
} from '#core/metrology/format.ts';
import type { MeasuredValue } from '#core/metrology/measured-value.ts';
import { BETZ_LIMIT } from '#core/rotor/wind/wind-power.ts';
import type { SpeedAnswer } from '#core/experiment/speed/speed-of-trial.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { percentText, powerText } from './budget.ts';

export interface ShownCoefficient {
  /** "3.1 ± 0.6 % of the wind's power"; null where it can't be told. */
  readonly result: string | null;
  /** That it is impossible; null where it is not. */
  readonly alarm: string | null;
  /** One sentence each. */
  readonly sentences: readonly string[];
  /** What is missing, in a sentence; null when nothing is. */
  readonly missing: string | null;
  /** Shares of the wind's power; null where there is nothing to draw. */
  readonly scale: ShownScale | null;
}

export interface ShownScale {
  readonly value: number;
  /** The 95 % interval, within 0 and 1. */
  readonly low: number;
  readonly high: number;
  readonly ideal: number | null;
  /** Betz's limit: "59.3 %" */
  readonly betz: string;
}

export function shownCoefficient(found: TrialCoefficient, words: Catalogue): ShownCoefficient {
  const say = words.wind;
  if (found.kind === 'none') {
    const sentences = [say.why[found.why]];
    return { result: null, alarm: null, sentences, missing: null, scale: null };
  }
  const { value, expandedUncertainty, windPower_W, isBeyondBetz, idealAtSpeed } = found;
  const { rows, gaps, gustsFrom } = found;
  const betz = percentOf(BETZ_LIMIT, words);
  const [largest] = rows;
  const unknown = words.list(gaps.map((gap) => say.gap[gap]));
  const sentences = [
    say.offered(powerText(windPower_W, prefixFor(windPower_W), words)),
    isBeyondBetz ? null : say.betz(betz),
    idealAtSpeed === null || isBeyondBetz ? null : say.ideal(percentOf(idealAtSpeed, words)),
    largest ? say.most(say.cause[largest.cause], percentText(largest.share, words)) : null,
    say.gustsFrom[gustsFrom],
  ];
  return {
    result: say.share(resultText(100 * value, 100 * expandedUncertainty, words)),
    alarm: isBeyondBetz ? say.beyond(betz) : null,
    sentences: sentences.filter((one) => one !== null),
    missing: gaps.length === 0 ? null : words.budget.atLeast(unknown),
    scale: {
      value: within(value),
      low: within(value - expandedUncertainty),
      high: within(value + expandedUncertainty),
      ideal: idealAtSpeed,
      betz,
    },
  };
}

/** GUM 7.2.6: two digits of the uncertainty, the value to the same place. */
function resultText(percent: number, spread: number, { number }: Catalogue): string {
  const place = spread > 0 ? placeOf(spread, 'full') : -1;
  const value = number(decimalAt(percent, place));
  return `${value} ± ${number(decimalAt(spread, place))}${UNIT_SPACE}%`;
}

/** A limit that is exact: one decimal is enough to see where it lies. */
function percentOf(share: number, { number }: Catalogue): string {
  return `${number((100 * share).toFixed(1))}${UNIT_SPACE}%`;
}

function within(share: number): number {
  return Math.min(Math.max(share, 0), 1);
}

const TURNS = 30 / Math.PI;

/** How fast it turned and by what that is known, or why the ripple of its voltage does not tell. */
export function speedSentences(
  { speed, noRipple, sampleRate_Hz }: SpeedAnswer,
  words: Catalogue,
): string[] {
  const say = words.wind;
  const rate = words.number(String(Math.round(sampleRate_Hz ?? 0)));
  // Readings that were typed, or are too few, say nothing of it either way.
  const isHeard = noRipple !== null && noRipple !== 'not heard';
  const why = isHeard ? say.noRipple[noRipple](rate) : '';
  if (speed === null) return why === '' ? [] : [why];
  const { rotorSpeed_radps, by, tipSpeedRatio } = speed;
  return [
    say.turned[by](plainText(times(rotorSpeed_radps, TURNS), words)),
    tipSpeedRatio === null ? '' : say.tips(plainText(tipSpeedRatio, words)),
    why,
  ].filter((sentence) => sentence !== '');
}

function times(
  { value, standardUncertainty, ...rest }: MeasuredValue,
  factor: number,
): MeasuredValue {
  const u = standardUncertainty === null ? null : factor * standardUncertainty;
  return { ...rest, value: factor * value, standardUncertainty: u };
}

/** "1740 ± 20", without a unit. */
export function plainText(measured: MeasuredValue, { number }: Catalogue): string {
  const as = { unit: '', prefix: { symbol: '', exponent: 0 } } as const;
  const { value, uncertainty } = writeMeasured(measured, as);
  return uncertainty === NO_VALUE ? number(value) : `${number(value)} ± ${number(uncertainty)}`;
}
