/**
 * The parabola through all trials of a numeric factor, by least squares, on a scale on which what
 * was tried runs from −1 to 1: there the powers of a place are of one size.
 */
import { ALPHA } from '../../statistics/groups.ts';
import { lackOfFit } from '../../statistics/lack-of-fit.ts';
import { fitPolynomial, type Polynomial } from '../../statistics/polynomial.ts';
import type { NumericLevel } from './numeric-level.ts';

export interface Parabola {
  readonly fit: Polynomial;
  /** The outermost levels, in the factor's unit. */
  readonly first: number;
  readonly last: number;
  /** The trials on the scale of the fit, and their responses. */
  readonly scaled: readonly number[];
  readonly responses: readonly number[];
  /** From the factor's unit to the scale of the fit, and back. */
  toScale(x: number): number;
  fromScale(u: number): number;
  /**
   * Whether the means of the levels keep to it: `unknown` where no level was repeated, `no` where
   * they miss it by more than trials scatter.
   */
  readonly isOne: 'yes' | 'no' | 'unknown';
}

/** @param levels from the smallest up, at least two */
export function parabolaOf(levels: readonly NumericLevel[]): Parabola {
  const [first, last] = [levels[0]!.x, levels.at(-1)!.x];
  const [middle, half] = [first / 2 + last / 2, last / 2 - first / 2];
  const toScale = (x: number): number => (x - middle) / half;
  const scaled = levels.flatMap(({ x, responses }) => responses.map(() => toScale(x)));
  const responses = levels.flatMap((level) => level.responses);
  const fit = fitPolynomial(scaled, responses, 2);
  const lack = lackOfFit(levels.map(({ moments }) => moments), fit);
  const isOne = lack === null ? 'unknown' : lack.p >= ALPHA ? 'yes' : 'no';
  return {
    fit,
    first,
    last,
    scaled,
    responses,
    toScale,
    fromScale: (u) => middle + half * u,
    isOne,
  };
}
