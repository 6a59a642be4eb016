import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare } from '#core/experiment/comparison/compare.ts';
import { ComparisonSchema, type ComparedTrial, type Comparison } from '#core/experiment/comparison/comparison-schema.ts';
import { trial } from '../../unit/experiment/compared-trials.ts';

function compared(trials: readonly ComparedTrial[], looks: 'once' | 'often' = 'once'): Comparison {
  return compare({ factor: 'angle_deg', response: 'power_W', looks, trials: [...trials] });
}

const anyNumber = fc.oneof(
  fc.double({ min: -1e100, max: 1e100, noNaN: true }),
  fc.constantFrom(0, 1, 1, 2, 1e-300, 1e100, -0),
  fc.integer({ min: -3, max: 3 }),
);
const anyTrial = fc.record({
  level: fc.oneof(fc.integer({ min: 0, max: 4 }), fc.constantFrom('a', 'b', ''), anyNumber),
  response: anyNumber,
  didNotTurn: fc.boolean(),
  block: fc.option(fc.integer({ min: 0, max: 3 })),
  order: fc.option(anyNumber),
  second: fc.option(fc.constantFrom('x', 'y', 'z')),
  standardUncertainty: fc.option(fc.double({ min: 1e-9, max: 1e9, noNaN: true })),
});

/** In millionths: a scatter as small as the digits of a double is no property of the trials. */
const wandering = fc.integer({ min: 1e5, max: 2e6 }).map((millionths) => millionths / 1e6);

/** Sound experiments: a few levels, several trials each, in a random order. */
const experiment = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 5 }), wandering), { minLength: 6, maxLength: 25 })
  .map((rows) => rows.map(([level, wander]) => trial(level * 10, level + wander)));

/** Numbers only: statements round, and method names don't change. */
function numbersOf({ anova, welch, tukey, gamesHowell, optimum, best }: Comparison) {
  return { anova, welch, tukey, gamesHowell, at: optimum.at, kind: optimum.kind, level: best.level, tied: new Set(best.tiedWith) };
}

function expectClose(found: unknown, wanted: unknown): void {
  const close = (value: unknown): unknown => {
    if (typeof value === 'number') {
      // Six digits, of large numbers their first six.
      const size = value === 0 ? 0 : Math.max(0, Math.ceil(Math.log10(Math.abs(value))));
      return expect.closeTo(value, 6 - size);
    }
    if (value instanceof Set) return value;
    if (Array.isArray(value)) return value.map(close);
    if (value !== null && typeof value === 'object') {
      return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, close(one)]));
    }
    return value;
  };
  expect(found).toEqual(close(wanted));
}

describe('the comparison', () => {
  it('never holds NaN or Infinity, whatever comes in', () => {
    fc.assert(
      fc.property(fc.array(anyTrial, { maxLength: 30 }), fc.constantFrom('once', 'often'), (trials, looks) => {
        const found = ComparisonSchema.safeParse(compared(trials as ComparedTrial[], looks as 'once' | 'often'));
        expect(found.error?.issues ?? []).toEqual([]);
        const { optimum, levels, best } = found.data!;
        const tried = levels.map(({ level }) => level).filter((level) => typeof level === 'number');
        for (const place of [optimum.at, optimum.low, optimum.high]) {
          if (place === null) continue;
          expect(place).toBeGreaterThanOrEqual(Math.min(...tried));
          expect(place).toBeLessThanOrEqual(Math.max(...tried));
        }
        expect(best.tiedWith).not.toContain(best.level);
      }),
      { numRuns: 500 },
    );
  });

  it('does not depend on the order of the rows', () => {
    fc.assert(
      fc.property(experiment, (trials) => {
        expectClose(numbersOf(compared([...trials].reverse())), numbersOf(compared(trials)));
      }),
      { numRuns: 60 },
    );
  });

  it('says the same in another unit, and about another zero', () => {
    fc.assert(
      fc.property(experiment, (trials) => {
        const plain = compared(trials);
        const scaled = compared(trials.map((one) => ({ ...one, response: one.response * 1000 })));
        const shifted = compared(trials.map((one) => ({ ...one, response: one.response + 100 })));
        for (const other of [scaled, shifted]) {
          expectClose(other.anova, plain.anova);
          expectClose(other.welch, plain.welch);
          expectClose(other.tukey?.map(({ p }) => p), plain.tukey?.map(({ p }) => p));
          expect([other.best.level, other.best.tiedWith]).toEqual([plain.best.level, plain.best.tiedWith]);
          expect(other.optimum.kind).toBe(plain.optimum.kind);
        }
        expectClose(scaled.tukey?.map(({ low }) => low / 1000), plain.tukey?.map(({ low }) => low));
      }),
      { numRuns: 60 },
    );
  });

  it('does not depend on what the levels are called', () => {
    fc.assert(
      fc.property(experiment, (trials) => {
        const named = compared(trials.map((one) => ({ ...one, level: `no. ${one.level}` })));
        const plain = compared(trials);
        expectClose(named.anova, plain.anova);
        expectClose(named.welch, plain.welch);
        expect(named.best.level).toBe(`no. ${plain.best.level}`);
        expect(new Set(named.best.tiedWith)).toEqual(new Set(plain.best.tiedWith.map((level) => `no. ${level}`)));
      }),
      { numRuns: 60 },
    );
  });
});
