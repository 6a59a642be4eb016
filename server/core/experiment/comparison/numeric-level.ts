import type { Moments } from '../../statistics/groups.ts';

/** A level that is a number, with what was measured at it. */
export interface NumericLevel {
  /** In the factor's unit. */
  readonly x: number;
  readonly moments: Moments;
  readonly responses: readonly number[];
}
