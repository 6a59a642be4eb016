/**
 * Does value ± U hold the truth as often as it says? A thousand rigs are built from parts whose errors
 * lie anywhere within their limits, and each measures known voltages and currents; it is counted how
 * often the intervals of power, difference and ratio hold what is true. The readings are worked out
 * from the parts, not from the budget's model.
 */
import { describe, expect, it } from 'vitest';
import { budgetOf, type Rig } from '#core/experiment/budget/budget.ts';
import { checkBudget } from '#core/experiment/budget/check.ts';
import { differenceOf, meanOfLevel, ratioOf } from '#core/experiment/budget/contrast.ts';
import type { BudgetedTrial } from '#core/experiment/budget/rows.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import { scatterOfMean } from '#core/metrology/type-a/independent.ts';
import { meanOf } from '#core/metrology/type-a/series.ts';
import { between, createRandom, normal, type Random } from '#core/virtual-rig/random.ts';
import { DIVIDER_AND_SHUNT } from '../../support/budgets.ts';

const RIGS = 1000;
const READINGS = 40;
const RIG: Rig = { id: 'rig', instrument: DIVIDER_AND_SHUNT };

interface Point {
  readonly v: number;
  readonly i: number;
}

/** The board as it was soldered: every part off by what its limits allow. */
function solder(random: Random) {
  const off = (limit: number): number => 1 + between(random, -limit, limit);
  return {
    reference_V: 5 * off(0.05),
    upper_Ohm: 20_000 * off(0.01),
    lower_Ohm: 10_000 * off(0.01),
    shunt_Ohm: 0.5 * off(0.01),
    gain: 20 * off(0.01),
    ampZero_V: between(random, -0.5e-3, 0.5e-3),
    zeroSteps: between(random, -2, 2),
  };
}
type Board = ReturnType<typeof solder>;

/** The mean of many conversions, to a 64th of a step: what the sketch sends, and what it is taken for. */
function convert(random: Random, { reference_V, zeroSteps }: Board, pin_V: number, noise: number): number {
  const steps = (pin_V / reference_V) * 1024 + zeroSteps + noise * normal(random);
  return Math.max(0, Math.round(steps * 64) / 64) * (5 / 1024);
}

function measure(random: Random, board: Board, { v, i }: Point, id: number, gusts = 0.02): BudgetedTrial {
  const readings = Array.from({ length: READINGS }, () => {
    // The wind moves both together.
    const gust = 1 + gusts * normal(random);
    const pin_V = (v * gust * board.lower_Ohm) / (board.upper_Ohm + board.lower_Ohm);
    const sense_V = (i * gust * board.shunt_Ohm + board.ampZero_V) * board.gain;
    return {
      v: convert(random, board, pin_V, 0.3) * 3,
      i: convert(random, board, sense_V, 0.3) / 10,
    };
  });
  const measured = (values: number[]) => {
    const { u, degreesOfFreedom } = scatterOfMean(values)!;
    return { value: meanOf(values), standardUncertainty: u, degreesOfFreedom };
  };
  return {
    id,
    basis: 'settled',
    rotorStill: v === 0,
    voltage_V: measured(readings.map((one) => one.v)),
    current_A: measured(readings.map((one) => one.i)),
    power_W: measured(readings.map((one) => one.v * one.i)),
    correction: null,
  };
}

/** True mean power while gusts move voltage and current by the same share. */
const truePower_W = ({ v, i }: Point, gusts = 0.02): number => v * i * (1 + gusts ** 2);

function share(hits: (random: Random, board: Board) => boolean, seed: number): number {
  const random = createRandom(seed);
  let held = 0;
  for (let rig = 0; rig < RIGS; rig++) if (hits(random, solder(random))) held += 1;
  return held / RIGS;
}

const budget = (trial: BudgetedTrial) => budgetOf(trial, RIG)!;
const STRONG: Point = { v: 3.2, i: 0.052 };
const MEDIUM: Point = { v: 2.6, i: 0.045 };
const WEAK: Point = { v: 0.5, i: 0.012 };
/** Four steps of the converter in each: as much zero as reading. */
const NOTHING_MUCH: Point = { v: 0.06, i: 0.002 };

describe('the 95 % interval holds the truth', () => {
  it.each([
    ['strong', STRONG],
    ['medium', MEDIUM],
    ['weak', WEAK],
  ])('power of one trial, %s', (_, point) => {
    const held = share((random, board) => {
      const { value_W, expandedUncertainty_W } = budget(measure(random, board, point, 1));
      return Math.abs(value_W - truePower_W(point)) <= expandedUncertainty_W;
    }, 1);
    expect(held).toBeGreaterThan(0.93);
    expect(held).toBeLessThan(0.995);
  });

  it.each([
    ['four steps of the converter', NOTHING_MUCH],
    ['one step', { v: 0.015, i: 0.0005 }],
  ])('power of one trial near nothing, by draws where the linear form fails: %s', (_, point) => {
    const held = share((random, board) => {
      const trial = measure(random, board, point, 1);
      const { value_W, expandedUncertainty_W: U } = budget(trial);
      const { isLinear, drawn } = checkBudget(trial, RIG, { budget: budget(trial), random, count: 2000 })!;
      const [low, high] = isLinear ? [value_W - U, value_W + U] : [drawn.low, drawn.high];
      return low <= truePower_W(point) && truePower_W(point) <= high;
    }, 8);
    expect(held).toBeGreaterThan(0.93);
    expect(held).toBeLessThan(0.995);
  });

  it('which its scatter alone would not', () => {
    const held = share((random, board) => {
      const { power_W } = measure(random, board, STRONG, 1);
      return Math.abs(power_W!.value - truePower_W(STRONG)) <= expandedUncertainty(power_W!)!;
    }, 2);
    expect(held).toBeLessThan(0.25);
  });

  it.each([
    ['far apart', STRONG, MEDIUM],
    ['alike', STRONG, { v: 3.19, i: 0.0519 }],
    ['one near nothing', STRONG, WEAK],
  ])('difference of two trials, %s', (_, one, other) => {
    const held = share((random, board) => {
      const [a, b] = [one, other].map((point, id) => budget(measure(random, board, point, id + 1)));
      const { value, expandedUncertainty: U } = differenceOf([a!], [b!]);
      return Math.abs(value - (truePower_W(one) - truePower_W(other))) <= U;
    }, 3);
    expect(held).toBeGreaterThan(0.93);
    expect(held).toBeLessThan(0.995);
  });

  it.each([
    ['far apart', STRONG, MEDIUM],
    ['a small one over a large one', WEAK, STRONG],
    ['a large one over a small one', STRONG, { v: 0.4, i: 0.012 }],
  ])('ratio of two levels of three trials, %s', (_, one, other) => {
    const held = share((random, board) => {
      const level = (point: Point) => [1, 2, 3].map((id) => budget(measure(random, board, point, id)));
      const ratio = ratioOf(level(one), level(other));
      const truth = truePower_W(one) / truePower_W(other);
      return ratio !== null && ratio.low <= truth && truth <= ratio.high;
    }, 4);
    expect(held).toBeGreaterThan(0.93);
    expect(held).toBeLessThan(0.995);
  });

  it('a rotor that stands: nothing, within what zeros and steps leave', () => {
    const held = share((random, board) => {
      const { value_W, expandedUncertainty_W } = budget(measure(random, board, { v: 0, i: 0 }, 1));
      expect(value_W).toBe(0);
      return expandedUncertainty_W > 0 && expandedUncertainty_W < 1e-3;
    }, 5);
    expect(held).toBe(1);
  });
});

describe('what trials have in common', () => {
  it('more trials make the random part smaller, not the common one', () => {
    const random = createRandom(6);
    const board = solder(random);
    const level = Array.from({ length: 16 }, (_, id) => budget(measure(random, board, STRONG, id + 1)));
    const [one, all] = [meanOfLevel(level.slice(0, 1)), meanOfLevel(level)];
    expect(all.random / one.random).toBeLessThan(0.35);
    expect(all.common / one.common).toBeCloseTo(1, 2);
  });

  it('counted as independent, the interval of a ratio would be three times as wide as need be', () => {
    const random = createRandom(7);
    const board = solder(random);
    const [a, b] = [STRONG, MEDIUM].map((point, id) => budget(measure(random, board, point, id + 1)));
    const other = budgetOf(measure(random, board, MEDIUM, 3), { ...RIG, id: 'another' })!;
    const together = ratioOf([a!], [b!])!.expandedUncertainty;
    expect(ratioOf([a!], [other])!.expandedUncertainty / together).toBeGreaterThan(3);
  });
});

describe('the check by draws', () => {
  const check = (point: Point, seed: number) => {
    const random = createRandom(seed);
    const trial = measure(random, solder(random), point, 1);
    return checkBudget(trial, RIG, { budget: budget(trial), random })!;
  };

  it('finds the linear form good enough for a usual trial', () => {
    for (const seed of [11, 12, 13]) expect(check(STRONG, seed).isLinear).toBe(true);
  });

  it('and not where zeros are as large as readings', () => {
    expect(check({ v: 0.015, i: 0.0005 }, 14).isLinear).toBe(false);
  });
});
