/**
 * The levels as they would compare in one wind, where the wind differed and power went with it: an
 * offer beside the comparison as measured, never in its place.
 */
import { meanOf } from '../../metrology/type-a/series.ts';
import { covarianceAnalysis } from '../../statistics/covariance-analysis.ts';
import { ALPHA } from '../../statistics/groups.ts';
import { studentTQuantile } from '../../statistics/student-t.ts';
import type { Answer } from '../answer/answer.ts';
import type { LevelKey } from '../comparison/comparison-schema.ts';

export interface SameWind {
  /** The wind that it is worked out for, m/s. */
  readonly windSpeed_mps: number;
  /** Power went with the wind to this power; 3 is what the wind itself does. */
  readonly exponent: number;
  readonly exponentLimits: readonly [low: number, high: number];
  /** That the levels are alike in one wind. */
  readonly f: number;
  readonly dfBetween: number;
  readonly dfWithin: number;
  readonly p: number;
  readonly levels: readonly {
    readonly level: LevelKey;
    readonly mean_W: number;
    readonly low_W: number;
    readonly high_W: number;
  }[];
}

/**
 * On logarithms, so that a gust moves each level by the same share. Null where it makes no
 * difference that could be told, or where it can't be told at all.
 */
export function inTheSameWind({ settings }: Pick<Answer, 'settings'>): SameWind | null {
  const seen = settings.flatMap(({ level, power_W, trials }) => {
    const winds = trials.flatMap(({ windSpeed_mps }) => windSpeed_mps?.value ?? []);
    const isKnown = power_W !== null && power_W > 0 && winds.length === trials.length;
    const wind = meanOf(winds);
    return isKnown && wind > 0 ? [{ level, x: Math.log(wind), y: Math.log(power_W) }] : [];
  });
  const levels = [...new Set(seen.map(({ level }) => level))];
  const found = covarianceAnalysis(
    seen.map(({ level, x, y }) => ({ group: levels.indexOf(level), x, y })),
  );
  if (found === null || !(found.slopeP < ALPHA)) return null;
  const { slope, slopeUncertainty, dfWithin, dfBetween, f, p, at, adjusted } = found;
  const k = studentTQuantile(1 - ALPHA / 2, dfWithin);
  return {
    windSpeed_mps: Math.exp(at),
    exponent: slope,
    exponentLimits: [slope - k * slopeUncertainty, slope + k * slopeUncertainty],
    ...{ f, dfBetween, dfWithin, p },
    levels: adjusted.map(({ mean, standardUncertainty }, place) => ({
      level: levels[place] ?? '',
      mean_W: Math.exp(mean),
      low_W: Math.exp(mean - k * standardUncertainty),
      high_W: Math.exp(mean + k * standardUncertainty),
    })),
  };
}
