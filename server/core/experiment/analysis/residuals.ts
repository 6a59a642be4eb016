/**
 * What is left of each setting beside the mean of its level: looked at by level it shows whether
 * the levels scatter alike, in the order of the trials whether something has crept.
 */
import { meanOf } from '../../metrology/type-a/series.ts';
import type { Answer } from '../answer/answer.ts';
import type { Seat } from '../answer/seats.ts';
import type { LevelKey } from '../comparison/comparison-schema.ts';

export interface Residual {
  readonly level: LevelKey;
  readonly seat: Seat;
  /** Readings of the setting; the first one's number is its place in the order. */
  readonly trialIds: readonly number[];
  readonly order: number;
  readonly power_W: number;
  /** Of its level. */
  readonly mean_W: number;
  readonly residual_W: number;
}

/** In the order of the trials. Of a level that was set once nothing is left: it has none. */
export function residualsOf({ settings }: Pick<Answer, 'settings'>): readonly Residual[] {
  const byLevel = new Map<LevelKey, number[]>();
  for (const { level, power_W } of settings) {
    if (power_W !== null) byLevel.set(level, [...(byLevel.get(level) ?? []), power_W]);
  }
  return settings.flatMap(({ level, seat, trials, power_W }): Residual[] => {
    const powers = byLevel.get(level) ?? [];
    const [first] = trials;
    if (power_W === null || first === undefined || powers.length < 2) return [];
    const mean_W = meanOf(powers);
    const trialIds = trials.map(({ id }) => id);
    const residual_W = power_W - mean_W;
    return [{ level, seat, trialIds, order: first.id, power_W, mean_W, residual_W }];
  });
}

/** Standard deviation as a share of the level's mean, pooled over the levels. */
export interface Scatter {
  readonly share: number;
  readonly degreesOfFreedom: number;
}

/** How much setting a level anew changes its power; null where no level was set twice. */
export function scatterOf(residuals: readonly Residual[]): Scatter | null {
  const levels = new Set(residuals.map(({ level }) => level));
  const degreesOfFreedom = residuals.length - levels.size;
  if (degreesOfFreedom < 1 || residuals.some(({ mean_W }) => !(mean_W > 0))) return null;
  const squares = residuals.reduce((sum, one) => sum + (one.residual_W / one.mean_W) ** 2, 0);
  return { share: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}
