/**
 * The numbers that levels are compared by.
 *
 * Setting a level anew scatters its power by a share of it, so logarithms are compared: there the
 * scatter is one for all levels, and a difference is a ratio. A zero (a rotor that did not turn)
 * has no logarithm and stays outside. Responses that can be negative are compared as they are.
 */
import { levelsOf, type LevelKey, type LevelTrial } from './level-trial.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { BlockReading } from './block-model.ts';

export interface Comparable {
  /** `ratio`: logarithms were taken. */
  readonly scale: 'ratio' | 'difference';
  readonly levels: readonly LevelKey[];
  readonly readings: readonly BlockReading[];
  /** Levels with zeros, and whether all of their trials are. */
  readonly zeros: ReadonlyMap<LevelKey, 'always' | 'sometimes'>;
  /** The scatter can't be smaller than this variance: the plateaus' own uncertainties. */
  readonly leastVariance: number;
}

/** Readings that agree to more digits than this share were rounded, not repeated. */
const FINEST = 1e-6;
/** An uncertainty beyond this says as little as this one, and its square is still a number. */
const COARSEST = 1e140;

export function comparableOf(trials: readonly LevelTrial[]): Comparable {
  const scale = trials.some(({ value }) => value < 0) ? 'difference' : 'ratio';
  const used = scale === 'ratio' ? trials.filter(({ value }) => value > 0) : trials;
  const levels = levelsOf(used);
  const blocks = [...new Set(used.map(({ block }) => block))];
  const readings = used.map(({ level, value, block }) => ({
    level: levels.indexOf(level),
    block: blocks.indexOf(block),
    y: scale === 'ratio' ? Math.log(value) : value,
  }));
  const unit = (value: number): number => (scale === 'ratio' ? Math.abs(value) : 1);
  const variances = used.map(
    ({ value, standardUncertainty }) =>
      Math.min((standardUncertainty ?? 0) / unit(value), COARSEST) ** 2,
  );
  const largest = scale === 'ratio' ? 1 : Math.max(...used.map(({ value }) => Math.abs(value)));
  const own = variances.length > 0 ? meanOf(variances) : 0;
  return {
    scale,
    levels,
    readings,
    zeros: scale === 'ratio' ? zerosOf(trials, levels) : new Map(),
    leastVariance: Math.max(own, (FINEST * largest) ** 2),
  };
}

function zerosOf(
  trials: readonly LevelTrial[],
  turning: readonly LevelKey[],
): Map<LevelKey, 'always' | 'sometimes'> {
  const withZeros = levelsOf(trials.filter(({ value }) => value === 0));
  return new Map(
    withZeros.map((level) => [level, turning.includes(level) ? 'sometimes' : 'always']),
  );
}
