/** What the page shows of a trial's budget: texts and lengths of bars, the largest cause first. */
import type { BudgetAnswer } from '#core/experiment/budget/answer.ts';
import type { Budget } from '#core/experiment/budget/budget.ts';
import type { BudgetRow } from '#core/experiment/budget/row.ts';
import type { Drawn } from '#core/metrology/draws.ts';
import {
  decimalAt,
  placeOf,
  prefixFor,
  scaled,
  UNIT_SPACE,
  type Prefix,
} from '#core/metrology/format.ts';
import type { Catalogue } from '../words/catalogue.ts';

export interface ShownCause {
  readonly key: string;
  readonly cause: string;
  readonly of: string;
  /** What it lies within, in its own unit; "–" where it has none of its own. */
  readonly limits: string;
  /** To the ±: the squares of all add up to its square. */
  readonly adds: string;
  readonly percent: string;
  readonly share: number;
  /** Null: some of each. */
  readonly whose: 'common' | 'alone' | null;
}

export interface ShownBudget {
  /** "243 ± 14 mW" */
  readonly result: string;
  readonly causes: readonly ShownCause[];
  /** One sentence each. */
  readonly sentences: readonly string[];
  /** What is missing, in a sentence; null when nothing is. */
  readonly missing: string | null;
}

/** Causes with less of the variance than this are put together, and left out if still less. */
const LEAST_SHARE = 0.001;

/** Null where nothing is known of the uncertainty. */
export function shownBudget(
  { budget, check }: BudgetAnswer,
  prefix: Prefix,
  words: Catalogue,
): ShownBudget | null {
  if (budget === null || !(budget.standardUncertainty_W > 0)) return null;
  const { random_W, common_W, expandedRandom_W, expandedCommon_W } = budget;
  const power = (value_W: number): string => powerText(value_W, prefix, words);
  const say = words.budget;
  const causes = shownCauses(budget, power, words);
  const [largest] = causes;
  const drawn = check?.isLinear === false ? check.drawn : null;
  const sentences = [
    budget.rows.some(({ cause }) => cause !== 'both at once') ? null : say.stoodStill,
    causes.length > 1 && largest ? say.most(largest.cause, largest.percent) : null,
    common_W > 0 && random_W > 0 ? say.alone(`±${power(expandedRandom_W)}`) : null,
    common_W > 0 ? say.common(`±${power(expandedCommon_W)}`) : null,
    drawn && drawnText(budget, drawn, prefix, words),
  ];
  const gaps = words.list(budget.gaps.map((gap) => say.gap[gap]));
  return {
    result: resultText(budget, prefix, words),
    causes,
    sentences: sentences.filter((one) => one !== null),
    missing: budget.gaps.length === 0 ? null : say.atLeast(gaps),
  };
}

/** So near to nothing that what is multiplied can't be told from it, in standard uncertainties. */
const NEAR_NOTHING = 3;

/** Where the ± is not what random draws say: as far as its own digits reach. */
function drawnText(
  { value_W, standardUncertainty_W, expandedUncertainty_W }: Budget,
  drawn: Drawn,
  { exponent, symbol }: Prefix,
  { budget: say, number }: Catalogue,
): string {
  const place = placeOf(scaled(expandedUncertainty_W, exponent), 'full');
  const text = (end_W: number): string =>
    `${number(decimalAt(scaled(end_W, exponent), place))}${UNIT_SPACE}${symbol}W`;
  const isNearNothing = Math.abs(value_W) < NEAR_NOTHING * standardUncertainty_W;
  const sentence = isNearNothing ? say.lopsided : say.roughly;
  return sentence(text(drawn.low), text(drawn.high));
}

/** GUM 7.2.6: two digits of the uncertainty, the value to the same place. */
function resultText(
  { value_W, expandedUncertainty_W }: Budget,
  { exponent, symbol }: Prefix,
  { number }: Catalogue,
): string {
  const spread = scaled(expandedUncertainty_W, exponent);
  const place = placeOf(spread, 'full');
  const value = number(decimalAt(scaled(value_W, exponent), place));
  return `${value} ± ${number(decimalAt(spread, place))}${UNIT_SPACE}${symbol}W`;
}

/** An amount of power to two digits. */
export function powerText(
  value_W: number,
  { exponent, symbol }: Prefix,
  { number }: Catalogue,
): string {
  const value = scaled(value_W, exponent);
  const text = value === 0 ? '0' : decimalAt(value, placeOf(Math.abs(value), 'full'));
  return `${number(text)}${UNIT_SPACE}${symbol}W`;
}

function shownCauses(
  { rows, coverageFactor: k }: Budget,
  power: (value_W: number) => string,
  words: Catalogue,
): ShownCause[] {
  const { budget: say } = words;
  const shown = rows.filter(({ share }) => share >= LEAST_SHARE);
  const small = rows.slice(shown.length);
  const causes = shown.map((row): ShownCause => {
    const whose = row.commonAs === null ? 'alone' : 'common';
    return {
      key: `${row.cause} ${row.channel}`,
      cause: say.cause[row.cause],
      of: say.of[row.channel],
      limits: limitsText(row, words),
      adds: `±${power(k * row.contribution_W)}`,
      percent: percentText(row.share, words),
      share: row.share,
      whose,
    };
  });
  const share = small.reduce((sum, row) => sum + row.share, 0);
  if (share < LEAST_SHARE) return causes;
  const rest: ShownCause = {
    key: 'rest',
    cause: say.rest(small.length),
    of: '',
    limits: '',
    adds: `±${power(k * Math.hypot(...small.map((row) => row.contribution_W)))}`,
    percent: percentText(share, words),
    share,
    whose: null,
  };
  return [...causes, rest];
}

/** A share of a variance. */
export function percentText(share: number, { number }: Catalogue): string {
  const percent = 100 * share;
  const text = percent < 0.1 ? `<${UNIT_SPACE}0.1` : percent.toFixed(percent < 9.95 ? 1 : 0);
  return `${number(text)}${UNIT_SPACE}%`;
}

/** Half width of what holds all of it, or of a normal law 95 %, in its standard uncertainties. */
const LIMIT = { rectangular: Math.sqrt(3), normal: 1.96, student: 1.96 } as const;

/** "±5 %", "±17 mV", "±2 steps" */
function limitsText(row: BudgetRow, { number, budget }: Catalogue): string {
  const { unit, distribution, standardUncertainty } = row;
  const limit = LIMIT[distribution] * standardUncertainty;
  const digits = (value: number): string => number(String(Number(value.toPrecision(2))));
  switch (unit) {
    case 'ratio':
      return `±${digits(100 * limit)}${UNIT_SPACE}%`;
    case 'step':
      return `±${budget.steps(digits(limit))}`;
    case 'V':
    case 'A': {
      const { exponent, symbol } = prefixFor(limit);
      return `±${digits(scaled(limit, exponent))}${UNIT_SPACE}${symbol}${unit}`;
    }
    case 'W':
    case 'limit':
      return '–';
  }
}
