/** Which of the angles asked for should give the most, and how sure the model is of that. */
import { decimalAt, firstPlace, prefixFor, scaled, UNIT_SPACE } from '../metrology/format.ts';
import type { PredictedAngle } from './predicted-angle.ts';

export interface BestAngle {
  /** Null where the rotor starts at none. */
  readonly angle_deg: number | null;
  /** Draws in which it gives the most. */
  readonly share: number | null;
  /** Others that give the most in more than 5 % of the draws. */
  readonly tiedWith: readonly number[];
  /** The least or the greatest of the angles: there may be more beyond. */
  readonly isAtEdge: boolean;
  readonly statement: string;
}

const NONE = { angle_deg: null, share: null, tiedWith: [], isAtEdge: false } as const;
const WORTH_NAMING = 0.05;

/** @param drawn load power of each angle in each draw, W */
export function bestAngle(
  angles: readonly PredictedAngle[],
  drawn: readonly (readonly number[])[],
): BestAngle {
  const best = angles.reduce((most, one) => (one.loadPower_W > most.loadPower_W ? one : most));
  if (!(best.loadPower_W > 0)) {
    return { ...NONE, statement: 'At none of these angles does the rotor start by itself.' };
  }
  const shares = sharesOfMost(drawn);
  const place = angles.indexOf(best);
  const tied = angles.filter((_, i) => i !== place && shares[i]! > WORTH_NAMING);
  const tiedWith = tied.map(({ angle_deg }) => angle_deg);
  const tried = angles.map(({ angle_deg }) => angle_deg);
  const isAtEdge =
    best.angle_deg === Math.min(...tried) || best.angle_deg === Math.max(...tried);
  const share = shares[place]!;
  const statement = stated(best, { share, tiedWith, isAtEdge, isAlone: new Set(tried).size === 1 });
  return { angle_deg: best.angle_deg, share, tiedWith, isAtEdge, statement };
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

interface Sureness extends Pick<BestAngle, 'tiedWith' | 'isAtEdge'> {
  readonly share: number;
  readonly isAlone: boolean;
}

function stated(best: PredictedAngle, { share, tiedWith, isAtEdge, isAlone }: Sureness): string {
  const { angle_deg, loadPower_W, loadPowerLow_W, loadPowerHigh_W } = best;
  const power = `${powerText(loadPower_W)} (95 % of the draws: ${powerText(loadPowerLow_W)} to ${powerText(loadPowerHigh_W)})`;
  if (isAlone) return `The model expects ${power} at ${angle_deg}°, the only angle asked for.`;
  const sure = `${angle_deg}° should give the most power: ${power}. It does in ${often(share)} of what is not known for sure`;
  const others = tiedWith.map((angle) => `${angle}°`).join(', ');
  const rivals = tiedWith.length === 0 ? '.' : `; ${others} may give more.`;
  const edge = isAtEdge ? ` It is at the edge of what was tried: there may be more beyond.` : '';
  return sure + rivals + edge;
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
