/** Which of the levels asked for should give the most, and how sure the model is of that. */
import { decimalAt, firstPlace, prefixFor, scaled, UNIT_SPACE } from '../metrology/format.ts';
import type { PredictedPoint } from './predicted-point.ts';

export interface BestLevel {
  /** Null where the rotor starts at none. */
  readonly level: number | null;
  /** Draws in which it gives the most. */
  readonly share: number | null;
  /** Others that give the most in more than 5 % of the draws. */
  readonly tiedWith: readonly number[];
  /** The least or the greatest of the levels: there may be more beyond. */
  readonly isAtEdge: boolean;
  readonly statement: string;
}

/** What is varied, in words. */
export interface FactorWords {
  readonly one: string;
  readonly many: string;
  readonly written: (level: number) => string;
}

export interface JudgedLevel {
  readonly level: number;
  readonly point: PredictedPoint;
  /** Load power in each draw, the same draws at every level, W. */
  readonly drawn_W: readonly number[];
}

const NONE = { level: null, share: null, tiedWith: [], isAtEdge: false } as const;
const WORTH_NAMING = 0.05;

/** @param levels at least one */
export function bestLevel(words: FactorWords, levels: readonly JudgedLevel[]): BestLevel {
  const best = levels.reduce((most, one) => {
    return one.point.loadPower_W > most.point.loadPower_W ? one : most;
  });
  if (!(best.point.loadPower_W > 0)) {
    return { ...NONE, statement: `At none of these ${words.many} does the rotor start by itself.` };
  }
  const shares = sharesOfMost(levels.map(({ drawn_W }) => drawn_W));
  const others = levels.filter((one, i) => one !== best && shares[i]! > WORTH_NAMING);
  const tried = levels.map(({ level }) => level);
  const found = {
    level: best.level,
    share: shares[levels.indexOf(best)]!,
    tiedWith: others.map(({ level }) => level),
    isAtEdge: best.level === Math.min(...tried) || best.level === Math.max(...tried),
  };
  const isAlone = new Set(tried).size === 1;
  const statement = isAlone ? alone(words, best) : stated(words, best.point, found);
  return { ...found, statement };
}

/** In how many of the draws each gives the most; a draw in which none turns counts for none. */
function sharesOfMost(drawn: readonly (readonly number[])[]): number[] {
  const count = drawn[0]?.length ?? 0;
  const won = drawn.map(() => 0);
  for (let draw = 0; draw < count; draw++) {
    const powers = drawn.map((one) => one[draw] ?? 0);
    const most = Math.max(...powers);
    if (most > 0) won[powers.indexOf(most)]! += 1;
  }
  return won.map((wins) => wins / count);
}

function alone({ one, written }: FactorWords, { level, point }: JudgedLevel): string {
  return `The model expects ${withBand(point)} at ${written(level)}, the only ${one} asked for.`;
}

interface Found extends Omit<BestLevel, 'statement'> {
  readonly level: number;
  readonly share: number;
}

function stated({ written }: FactorWords, point: PredictedPoint, found: Found): string {
  const { level, share, tiedWith, isAtEdge } = found;
  const sure = `${written(level)} should give the most power: ${withBand(point)}. It does in ${often(share)} of what is not known for sure`;
  const others = tiedWith.map(written).join(', ');
  const rivals = tiedWith.length === 0 ? '.' : `; ${others} may give more.`;
  const edge = isAtEdge ? ' It is at the edge of what was tried: there may be more beyond.' : '';
  return sure + rivals + edge;
}

function withBand({ loadPower_W, loadPowerLow_W, loadPowerHigh_W }: PredictedPoint): string {
  return `${powerText(loadPower_W)} (95 % of the draws: ${powerText(loadPowerLow_W)} to ${powerText(loadPowerHigh_W)})`;
}

/** Rounded down: one that fails in a few draws is not the best in all. */
function often(share: number): string {
  return share === 1 ? 'every draw' : `${Math.floor(100 * share)} of 100 draws`;
}

/** Two digits: a model's figure deserves no more. */
export function powerText(power_W: number): string {
  const { symbol, exponent } = prefixFor(power_W);
  const value = scaled(power_W, exponent);
  const text = value === 0 ? '0' : decimalAt(value, firstPlace(value) - 1);
  return `${text}${UNIT_SPACE}${symbol}W`;
}
