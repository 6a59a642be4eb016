/**
 * The baselines with their settings. "textbook": as published. "tuned": best F1 on the development
 * seeds by `tune.ts` over the grids named there.
 */
import type { Method } from '../method.ts';
import { rollingDeviationMethod } from './rolling-deviation.ts';
import { slopeMethod } from './slope.ts';
import { varianceRatioMethod } from './variance-ratio.ts';

export const BASELINES: readonly Method[] = [
  rollingDeviationMethod({ name: 'rolling deviation, 3 s < 2 %', window_s: 3, limit: 0.02 }),
  rollingDeviationMethod({ name: 'rolling deviation, tuned', window_s: 8, limit: 0.06 }),
  varianceRatioMethod({
    name: 'variance ratio, textbook',
    spacing_s: 0,
    filter: 0.2,
    varianceFilter: 0.1,
    differenceFilter: 0.1,
    enterBelow: 1,
    leaveAbove: 2,
  }),
  slopeMethod({
    name: 'slope t-test, 6 s',
    window_s: 6,
    test: { kind: 'significance', enterBelow: 2, leaveAbove: 3 },
  }),
  slopeMethod({
    name: 'slope equivalence, tuned',
    window_s: 15,
    test: { kind: 'equivalence', tolerance: 0.1 },
  }),
];
