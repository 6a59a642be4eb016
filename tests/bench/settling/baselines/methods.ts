/**
 * The baselines with their settings: published ones, and the best F1 that `tune.ts` found on the
 * development seeds.
 */
import type { Method } from '../method.ts';
import { rollingDeviationMethod } from './rolling-deviation.ts';
import { slopeMethod } from './slope.ts';
import { varianceRatioMethod } from './variance-ratio.ts';

export const BASELINES: readonly Method[] = [
  rollingDeviationMethod({ name: 'rolling deviation, 3 s < 2 %', window_s: 3, limit: 0.02 }),
  rollingDeviationMethod({ name: 'rolling deviation, tuned', window_s: 10, limit: 0.03 }),
  varianceRatioMethod({
    name: 'variance ratio, published',
    spacing_s: 0,
    filter: 0.2,
    varianceFilter: 0.1,
    differenceFilter: 0.1,
    enterBelow: 1,
    leaveAbove: 2,
  }),
  varianceRatioMethod({
    name: 'variance ratio, tuned',
    spacing_s: 0.1,
    filter: 0.4,
    varianceFilter: 0.2,
    differenceFilter: 0.2,
    enterBelow: 1.5,
    leaveAbove: 6,
  }),
  slopeMethod({
    name: 'slope t-test, tuned',
    window_s: 4,
    test: { kind: 'significance', enterBelow: 1, leaveAbove: 8 },
  }),
  slopeMethod({
    name: 'slope equivalence, tuned',
    window_s: 9,
    test: { kind: 'equivalence', tolerance: 0.08 },
  }),
];
