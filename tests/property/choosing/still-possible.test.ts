import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stillPossible } from '#core/experiment/choosing/still-possible.ts';

const against = fc.array(fc.double({ min: 0, max: 500, noNaN: true }), {
  minLength: 1,
  maxLength: 8,
});

/** Closed testing by going through every set of levels that could be the tied bests. */
function byEverySet(values: readonly number[], alpha: number): boolean[] {
  const possible = values.map(() => false);
  for (let set = 1; set < 1 << values.length; set++) {
    const members = values.flatMap((_, i) => ((set >> i) & 1 ? [i] : []));
    const mean = members.reduce((sum, i) => sum + values[i]!, 0) / members.length;
    if (mean < 1 / alpha) for (const i of members) possible[i] = true;
  }
  return possible;
}

describe('stillPossible', () => {
  it('is closed testing over every set of levels', () => {
    fc.assert(
      fc.property(against, (values) => {
        expect(stillPossible(values, 0.05)).toEqual(byEverySet(values, 0.05));
      }),
    );
  });

  it('asks twice as much against the last rival as against a level alone', () => {
    expect(stillPossible([0, 39.9], 0.05)).toEqual([true, true]);
    expect(stillPossible([0, 40], 0.05)).toEqual([true, false]);
  });

  it('may rule out all, but not while one has no evidence against it', () => {
    fc.assert(
      fc.property(against, (values) => {
        expect(stillPossible([0, ...values], 0.05)[0]).toBe(true);
      }),
    );
  });
});
