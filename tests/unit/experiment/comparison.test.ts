import { describe, expect, it } from 'vitest';
import { compare } from '#core/experiment/comparison/compare.ts';
import { ComparisonSchema, type ComparedTrial, type Comparison } from '#core/experiment/comparison/comparison-schema.ts';
import { trial, trialsOf } from './compared-trials.ts';

function compared(trials: readonly ComparedTrial[], looks: 'once' | 'often' = 'once'): Comparison {
  const comparison = compare({ factor: 'angle_deg', response: 'power_W', looks, trials: [...trials] });
  return ComparisonSchema.parse(comparison);
}

describe('which level is best', () => {
  it('is said with its size where it is clear', () => {
    const { best, next } = compared(trialsOf([20, [0.24, 0.25, 0.245]], [35, [0.18, 0.19, 0.185]], [50, [0.1, 0.11, 0.105]]));
    expect(best).toMatchObject({ level: 20, tiedWith: [], reason: 'clear', method: 'tukey' });
    expect(best.statement).toBe('20° gives the most power: about 32 % more power than 35°, the next best.');
    expect(next).toEqual([]);
  });

  it('is left open where it is not, and what to run next is said', () => {
    const { best, next } = compared(trialsOf([20, [0.2, 0.26]], [35, [0.19, 0.24]], [50, [0.01, 0.02]]));
    expect(best).toMatchObject({ level: 20, tiedWith: [35], reason: 'tied' });
    expect(best.statement).toBe("20° shows the most power so far, but it can't be told apart yet from 35°; every other level gives less.");
    expect(new Set(next.map(({ level }) => level))).toEqual(new Set([20, 35]));
  });

  it('takes more to be said of trials that are looked at while they are made', () => {
    // Just apart for those who look once (Montgomery's hardwood, 20 and 15; data from memory).
    const trials = trialsOf(
      [5, [7, 8, 15, 11, 9, 10]], [10, [12, 17, 13, 18, 19, 15]],
      [15, [14, 18, 19, 17, 16, 18]], [20, [19, 25, 22, 23, 18, 20]],
    );
    const once = compared(trials);
    const often = compared(trials, 'often');
    expect(once.best.tiedWith.length).toBeLessThan(often.best.tiedWith.length);
    expect(often.best).toMatchObject({ level: 20, method: 'every-look' });
    expect(often.tukey).toEqual(once.tukey);
  });

  it('is judged within blocks where there are any', () => {
    // Rounds differ by far more than levels do.
    const rounds = [0, 5, 11, 16];
    const wander = [0.02, -0.03, 0.01, 0];
    const trials = rounds.flatMap((shift, round) => [
      trial('short', 3 + shift + wander[round]!, { block: round }),
      trial('long', 4 + shift - wander[round]!, { block: round }),
    ]);
    expect(compared(trials.map((one) => ({ ...one, block: null }))).best.tiedWith).toEqual(['short']);
    expect(compared(trials).best).toMatchObject({ level: 'long', tiedWith: [], method: 'blocked' });
  });

  // Made up: the two strongest levels scatter by 5 %, as all do; in watts, the weak ones hardly.
  it.each([true, false])('is judged by two levels’ own scatter where that is the greater, blocks %s', (blocks) => {
    const rows = [
      [103, 98, 94, 10, 4, 2, 1], [97, 87, 93, 9.5, 4.2, 2.1, 0.95], [104, 92, 95, 10.5, 3.8, 1.9, 1.05],
    ];
    const trials = rows.flatMap((row, round) =>
      row.map((y, level) => trial(level, y, { block: blocks ? round : null })),
    );
    const { best, tukey, blocked, judged } = compared(trials);
    const table = blocks ? blocked!.pairs : tukey!;
    const pair = table.find(({ a, b }) => a === 1 && b === 0)!;
    expect(pair.high).toBeLessThan(0);
    expect(judged!.find(({ a, b }) => a === 1 && b === 0)!.high).toBeGreaterThan(0);
    expect(best).toMatchObject({ level: 0, reason: 'tied' });
    expect(best.tiedWith).toContain(1);
  });

  it('is not judged across blocks that no level links', () => {
    const trials = [
      ...[3, 3.02, 3.01].map((y) => trial('short', y, { block: 'Monday' })),
      ...[4, 4.02, 4.01].map((y) => trial('long', y, { block: 'Tuesday' })),
    ];
    const { best } = compared(trials);
    expect(best).toMatchObject({ level: 'long', tiedWith: ['short'], reason: 'tied', method: null });
    expect(best.lead).toMatchObject({ low: null, high: null });
    expect(best.statement).toMatch(/can't be told apart yet from short\. They were not all run in the same blocks/);
    const linked = [...trials, trial('short', 3.5, { block: 'Tuesday' })];
    expect(compared(linked).best).toMatchObject({ tiedWith: [], method: 'blocked' });
  });

  it('has the same tables, blocks and second factor included, far from zero', () => {
    const near = [0, 1, 2, 3].flatMap((round) =>
      ['short', 'long', 'wide'].flatMap((level, i) => [
        trial(level, 2 * i + round + ((3 * i + 5 * round) % 7) / 8, { block: round, second: round % 2 }),
        trial(level, 2 * i + round + ((5 * i + round) % 5) / 8, { block: round, second: round % 2 }),
      ]),
    );
    const far = near.map((one) => ({ ...one, response: one.response + 1e9 }));
    // Eighths are held exactly up there, so that nothing but the reckoning can differ.
    const { blocked, twoFactor } = compared(near);
    expect(blocked).not.toBeNull();
    expect(compared(far).blocked).toEqual(blocked);
    expect(compared(far).twoFactor).toEqual(twoFactor);
  });

  it('is not judged by levels that read the same again and again', () => {
    // Two dark lamps don't show how much the others wander.
    const { anova, best } = compared(trialsOf([20, [0.2, 0.24]], [35, [0.17, 0.21]], [80, [0, 0, 0, 0, 0, 0, 0]]));
    expect(anova).not.toBeNull();
    expect(best.tiedWith).toContain(35);
  });
});

describe('a rotor that did not turn', () => {
  const trials = [
    ...trialsOf([20, [0.24, 0.25]], [50, [0.1, 0.11]]),
    trial(80, 0, { didNotTurn: true }),
    trial(80, 0, { didNotTurn: true }),
  ];

  it('is an outcome of its own, outside the model of the scatter', () => {
    const { levels, anova, best } = compared(trials);
    expect(levels.at(-1)).toEqual({
      level: 80, count: 0, didNotTurn: 2, mean: null, standardDeviation: null, low: null, high: null, limitsFrom: null,
    });
    expect(anova).toMatchObject({ dfBetween: 1, dfWithin: 2 });
    expect(best.statement).toContain('At 80° the blades did not turn.');
  });

  it('leaves nothing to say where it never did', () => {
    const { best } = compared(trials.slice(4));
    expect(best).toMatchObject({ level: null, tiedWith: [], reason: 'nothing-turned' });
  });
});

describe('too little to tell', () => {
  const nothing = { anova: null, welch: null, tukey: null, gamesHowell: null, blocked: null };

  it('no trials', () => {
    expect(compared([])).toMatchObject({ ...nothing, levels: [], best: { level: null }, next: [] });
  });

  it('one trial', () => {
    const { best, ...rest } = compared([trial(20, 0.2)]);
    expect(rest).toMatchObject({ ...nothing, optimum: { kind: 'none' } });
    expect(best).toMatchObject({ level: 20, reason: 'one-level' });
  });

  it('one trial at each level: its own uncertainty is a lower bound, and labelled', () => {
    const trials = [10, 20, 30].map((level, i) => trial(level, 0.1 + i / 10, { standardUncertainty: 0.01 }));
    const { best, levels, ...rest } = compared(trials);
    expect(rest).toMatchObject(nothing);
    expect(levels[0]).toMatchObject({ limitsFrom: 'reading', low: 0.08, high: expect.closeTo(0.12, 12) as number });
    expect(best).toMatchObject({ level: 30, tiedWith: [20, 10], reason: 'tried-once' });
    expect(best.statement).toContain('nobody can know yet how much it changes when it is set again');
  });

  it('no scatter at all', () => {
    const { best, ...rest } = compared(trialsOf([10, [0.1, 0.1]], [20, [0.2, 0.2]], [30, [0.1, 0.1]]));
    expect(rest).toMatchObject({ ...nothing, next: [] });
    expect(best).toMatchObject({ level: 20, tiedWith: [10, 30], reason: 'no-scatter' });
  });

  it('no scatter but that of rounding', () => {
    const { anova, best } = compared(trialsOf([10, [0.1 + 0.2, 0.3]], [20, [0.7, 0.6 + 0.1]]));
    expect([anova, best.reason]).toEqual([null, 'no-scatter']);
  });

  it('no scatter at one level: Welch and Games-Howell have no answer, the others do', () => {
    const found = compared(trialsOf([10, [0.1, 0.1]], [20, [0.2, 0.22]]));
    expect(found).toMatchObject({ welch: null, gamesHowell: null, anova: { dfWithin: 2 } });
  });
});

describe('where the most lies', () => {
  const around = (x: number, y: number): [number, number[]] => [x, [y - 0.02, y, y + 0.02]];

  it('inside, by a parabola that fits', () => {
    const { optimum } = compared(trialsOf(...[10, 20, 30, 40, 50].map((x) => around(x, 2 - ((x - 27) / 20) ** 2))));
    expect(optimum).toMatchObject({ kind: 'interior', at: expect.closeTo(27, 8) as number });
    expect(optimum.low).toBeGreaterThan(24);
    expect(optimum.high).toBeLessThan(30);
    expect(optimum.method).toContain('Fieller');
  });

  it('inside, between levels, where a parabola does not fit', () => {
    // Steep up, slow down.
    const { optimum } = compared(trialsOf(around(5, 0.2), around(10, 2), around(20, 1.7), around(40, 1.2), around(80, 0.9)));
    expect(optimum).toMatchObject({ kind: 'interior', low: 5, high: 20 });
    expect(optimum.at).toBeGreaterThanOrEqual(5);
    expect(optimum.at).toBeLessThanOrEqual(20);
  });

  it.each([
    ['falls straight', [10, 20, 30, 40, 50].map((x) => around(x, 2 - x / 40)), 10],
    ['rises ever slower', [10, 20, 30, 40, 50].map((x) => around(x, 2 - ((x - 70) / 40) ** 2)), 50],
    ['falls away fast', [15, 30, 45, 60].map((x) => around(x, 36 * Math.exp((15 - x) / 12))), 15],
    ['is lowest inside', [10, 20, 30, 40, 50].map((x) => around(x, ((x - 25) / 20) ** 2)), 50],
  ] as const)('at the edge of what was tried, never beyond: %s', (_, levels, at) => {
    const { optimum } = compared(trialsOf(...levels));
    expect(optimum).toMatchObject({ kind: 'edge', at, low: null, high: null });
  });

  it('can’t be said of what only wanders', () => {
    const wander = [0.1, -0.3, 0.2, 0.25, -0.2, 0.05, -0.1, 0.15, -0.15, 0.0];
    const { optimum } = compared(wander.map((shift, i) => trial(10 * (i % 5), 2 + shift)));
    expect(optimum).toMatchObject({ kind: 'unbounded', at: null, low: null, high: null });
  });

  it('has no answer for names and for two levels', () => {
    expect(compared(trialsOf(['short', [1, 2]], ['long', [2, 3]], ['mid', [1, 3]])).optimum.kind).toBe('none');
    expect(compared(trialsOf([1, [1, 2]], [2, [2, 3]])).optimum.kind).toBe('none');
  });
});

describe('order of the levels', () => {
  it('goes up for numbers, and by appearance for names', () => {
    expect(compared(trialsOf([30, [1]], [4, [2]], [20, [3]])).levels.map(({ level }) => level)).toEqual([4, 20, 30]);
    expect(compared(trialsOf(['mid', [1]], ['long', [2]])).levels.map(({ level }) => level)).toEqual(['mid', 'long']);
  });
});
