/** The rigs that choosing is measured on. Powers in any unit; the first level is a best one. */
import type { RigTruth, Scatter } from './rig.ts';

export interface Configuration {
  readonly name: string;
  readonly truth: RigTruth;
}

const DRIFT = 0.03;

function share(value: number): Scatter {
  return { kind: 'share', share: value };
}

function rig(name: string, powers: readonly number[], scatter: Scatter, outliers = 0): Configuration {
  return { name, truth: { powers, scatter, outliers, drift: DRIFT } };
}

/** Two or more levels tie for the best. */
export const TIES: readonly Configuration[] = [
  rig('2 of 2', [100, 100], share(0.05)),
  rig('3 of 3', [100, 100, 100], share(0.05)),
  rig('5 of 5', [100, 100, 100, 100, 100], share(0.05)),
  rig('8 of 8', [100, 100, 100, 100, 100, 100, 100, 100], share(0.05)),
  rig('2 of 5', [100, 100, 60, 40, 20], share(0.05)),
  rig('3 of 5', [100, 100, 100, 40, 20], share(0.05)),
  rig('5 of 5, scatter 10 %', [100, 100, 100, 100, 100], share(0.1)),
  rig('5 of 5, outliers 4 %', [100, 100, 100, 100, 100], share(0.05), 0.04),
  rig('2 of 5, outliers 4 %', [100, 100, 60, 40, 20], share(0.05), 0.04),
  rig('3 of 5, constant scatter', [100, 100, 100, 40, 20], { kind: 'constant', shareOfBest: 0.05 }),
  rig('3 of 5, best scatter twice as much', [100, 100, 100, 40, 20], {
    kind: 'unequal',
    shares: [0.08, 0.08, 0.08, 0.04, 0.04],
  }),
  rig('2 of 5, best scatter four times as much', [100, 100, 60, 40, 20], {
    kind: 'unequal',
    shares: [0.1, 0.1, 0.025, 0.025, 0.025],
  }),
  rig('5 of 5, one scatters twice as much', [100, 100, 100, 100, 100], {
    kind: 'unequal',
    shares: [0.08, 0.04, 0.04, 0.04, 0.04],
  }),
  rig('5 of 5, one scatters four times as much', [100, 100, 100, 100, 100], {
    kind: 'unequal',
    shares: [0.12, 0.03, 0.03, 0.03, 0.03],
  }),
];

/** One level is best. */
export const CONTESTS: readonly Configuration[] = [
  rig('blade angles 37/11/4/1.5', [37, 11, 4, 1.5], share(0.05)),
  rig('the same, scatter 10 %', [37, 11, 4, 1.5], share(0.1)),
  rig('near ones 100/92/75/60/40', [100, 92, 75, 60, 40], share(0.05)),
  rig('the same, scatter 3 %', [100, 92, 75, 60, 40], share(0.03)),
  rig('linear, 5 levels', [100, 85, 70, 55, 40], share(0.05)),
  rig('linear, scatter 10 %', [100, 85, 70, 55, 40], share(0.1)),
  rig('linear, 8 levels', [100, 90, 80, 70, 60, 50, 40, 30], share(0.05)),
  rig('linear, 3 levels', [100, 85, 70], share(0.05)),
  rig('slippage 15 %, 3 levels', [100, 85, 85], share(0.05)),
  rig('slippage 15 %, 5 levels', [100, 85, 85, 85, 85], share(0.05)),
  rig('slippage 15 %, 8 levels', [100, 85, 85, 85, 85, 85, 85, 85], share(0.05)),
  rig('one close rival, 5 levels', [100, 92, 60, 50, 40], share(0.05)),
  rig('one close rival, 8 levels', [100, 92, 60, 55, 50, 45, 40, 35], share(0.05)),
  rig('two rivals tie', [100, 88, 88, 50, 40], share(0.05)),
  rig('linear, constant scatter', [100, 85, 70, 55, 40], { kind: 'constant', shareOfBest: 0.05 }),
  rig('linear, best scatters most', [100, 85, 70, 55, 40], {
    kind: 'unequal',
    shares: [0.08, 0.06, 0.04, 0.03, 0.03],
  }),
  rig('linear, best scatters least', [100, 85, 70, 55, 40], {
    kind: 'unequal',
    shares: [0.03, 0.04, 0.05, 0.06, 0.08],
  }),
  rig('linear, outliers 4 %', [100, 85, 70, 55, 40], share(0.05), 0.04),
];
