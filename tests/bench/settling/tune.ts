/**
 * Finds the settings of the tuned baselines: best F1 over the development seeds of both generators,
 * at 10 and 50 Hz, over the grids below. `node --import tsx tests/bench/settling/tune.ts`
 */
import { rollingDeviationMethod } from './baselines/rolling-deviation.ts';
import { slopeMethod } from './baselines/slope.ts';
import { varianceRatioMethod } from './baselines/variance-ratio.ts';
import type { Method } from './method.ts';
import { recordingsOf, parseOptions } from './options.ts';
import { addScore, emptyScore, figuresOf, scoreRecording } from './score.ts';
import { figureTable, type Row } from './table.ts';

const deviations = grid([6, 8, 10, 12, 15], [0.02, 0.025, 0.03, 0.035, 0.04]).map(
  ([window_s, limit]) =>
    rollingDeviationMethod({ name: `deviation ${window_s} s < ${limit}`, window_s, limit }),
);

const ratios = grid([0, 0.1, 0.2, 0.5], [0.05, 0.1, 0.2, 0.4], [1, 1.5, 2.5, 4], [3, 6, 12]).map(
  ([spacing_s, filter, enterBelow, leaveAbove]) =>
    varianceRatioMethod({
      name: `ratio ${spacing_s} s, λ ${filter}, ${enterBelow} to ${leaveAbove}`,
      spacing_s,
      filter,
      varianceFilter: filter / 2,
      differenceFilter: filter / 2,
      enterBelow,
      leaveAbove,
    }),
);

const equivalences = grid([6, 7, 8, 9, 10], [0.06, 0.08, 0.1, 0.12]).map(([window_s, tolerance]) =>
  slopeMethod({
    name: `equivalence ${window_s} s within ${tolerance}`,
    window_s,
    test: { kind: 'equivalence', tolerance },
  }),
);

const significances = grid([3, 4, 5], [0.5, 1, 2], [8, 12, 20]).map(
  ([window_s, enterBelow, leaveAbove]) =>
    slopeMethod({
      name: `t-test ${window_s} s, ${enterBelow} to ${leaveAbove}`,
      window_s,
      test: { kind: 'significance', enterBelow, leaveAbove },
    }),
);

/** Every combination of one value from each list. */
function grid<const L extends readonly (readonly number[])[]>(
  ...lists: L
): { -readonly [K in keyof L]: number }[] {
  return lists.reduce<number[][]>(
    (rows, list) => rows.flatMap((row) => list.map((value) => [...row, value])),
    [[]],
  ) as { -readonly [K in keyof L]: number }[];
}

function main(): void {
  const recordings = ['plant', 'second'].flatMap((generator) => {
    const options = ['--generator', generator, '--rates', '10,50', '--count', '2'];
    return [...recordingsOf(parseOptions(options))];
  });
  for (const family of [deviations, ratios, significances, equivalences]) {
    console.log(figureTable('setting', family.map(rowOf).sort(byF1).slice(0, 4)), '\n');
  }

  function rowOf(method: Method): Row {
    const total = emptyScore();
    for (const recording of recordings) {
      addScore(total, scoreRecording(recording, method.find(recording), 0));
    }
    return { label: method.name, figures: figuresOf(total) };
  }
}

function byF1(a: Row, b: Row): number {
  return b.figures.f1 - a.figures.f1;
}

main();
