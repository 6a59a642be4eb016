import { describe, expect, it } from 'vitest';
import type { FoundPlateau } from '../../bench/settling/method.ts';
import type { Interval, Recording, TruePlateau } from '../../bench/settling/recording.ts';
import {
  addScore,
  covers,
  emptyScore,
  figuresOf,
  iou,
  matchPlateaus,
  quantile,
  scoreRecording,
} from '../../bench/settling/score.ts';

function truth(start_s: number, end_s: number, voltage_V = 1): TruePlateau {
  return { start_s, end_s, voltage_V, eitherWay: end_s - start_s < 6 };
}

function found(start_s: number, end_s: number, more: Partial<FoundPlateau> = {}): FoundPlateau {
  return {
    start_s,
    end_s,
    declared_s: start_s + 3,
    closed_s: end_s,
    voltage_V: 1,
    standardUncertainty_V: 0.01,
    degreesOfFreedom: 10,
    ...more,
  };
}

function recording(plateaus: TruePlateau[], rests: Partial<Recording> = {}): Recording {
  return {
    kind: 'by hand',
    rate_Hz: 10,
    seed: 0,
    duration_s: 360,
    lag_s: 1,
    samples: [],
    plateaus,
    stillInWind: [],
    still: [],
    restless: [],
    ...rests,
  };
}

function score(plateaus: TruePlateau[], all: FoundPlateau[], rests: Partial<Recording> = {}) {
  return scoreRecording(recording(plateaus, rests), { plateaus: all, takenBack: [], hopeless_s: [] }, 0);
}

describe('intersection over union', () => {
  it.each<[Interval, Interval, number]>([
    [{ start_s: 0, end_s: 10 }, { start_s: 0, end_s: 10 }, 1],
    [{ start_s: 0, end_s: 10 }, { start_s: 5, end_s: 15 }, 1 / 3],
    [{ start_s: 0, end_s: 10 }, { start_s: 2, end_s: 7 }, 0.5],
    [{ start_s: 0, end_s: 10 }, { start_s: 10, end_s: 20 }, 0],
    [{ start_s: 3, end_s: 3 }, { start_s: 3, end_s: 3 }, 0],
  ])('%j and %j: %d', (a, b, expected) => {
    expect(iou(a, b)).toBeCloseTo(expected, 12);
    expect(iou(b, a)).toBeCloseTo(expected, 12);
  });
});

describe('matching', () => {
  it('pairs at one half and not below', () => {
    expect(matchPlateaus([truth(0, 10)], [found(5, 10)])).toHaveLength(1);
    expect(matchPlateaus([truth(0, 10)], [found(5.1, 10)])).toHaveLength(0);
  });

  it('gives each plateau one partner, the best pair first', () => {
    const [wide, narrow] = [found(0, 20), found(0, 11)];
    const matches = matchPlateaus([truth(0, 10), truth(11, 21)], [wide, narrow]);
    expect(matches).toHaveLength(1);
    expect(matches[0]).toMatchObject({ truth: { start_s: 0 }, found: narrow });
  });

  it('lets one that spans two true plateaus count for the longer only', () => {
    const matches = matchPlateaus([truth(0, 20), truth(20, 30)], [found(0, 30)]);
    expect(matches.map((match) => match.truth.start_s)).toEqual([0]);
  });
});

describe('one recording', () => {
  it('everything found', () => {
    const figures = figuresOf(
      score([truth(10, 30), truth(40, 60)], [found(11, 30), found(40, 60)]),
    );
    expect(figures).toMatchObject({
      trueCount: 2,
      precision: 1,
      recall: 1,
      f1: 1,
      recallAt80: 1,
      falsePerHour: 0,
      fragmentsPerHour: 0,
      latencyMedian_s: 3.5,
      withdrawn: 0,
    });
  });

  it('nothing found', () => {
    const figures = figuresOf(score([truth(10, 30)], []));
    expect(figures.recall).toBe(0);
    expect(figures.f1).toBe(0);
    expect(figures.precision).toBeNaN();
    expect(figures.coverage).toBeNaN();
  });

  it('nothing to find: no score at all', () => {
    expect(figuresOf(score([], [])).f1).toBeNaN();
  });

  it('tells false ones, fragments and found ones apart', () => {
    const result = score(
      [truth(10, 50)],
      [found(10, 38), found(40, 50), found(60, 70), found(45, 58)],
    );
    expect(result.matches).toHaveLength(1);
    // 40 to 50 lies in the true plateau; of 45 to 58 most lies outside, as all of 60 to 70 does.
    expect(result.fragmentCount).toBe(1);
    expect(result.falseCount).toBe(2);
    const figures = figuresOf(result);
    expect(figures.precision).toBeCloseTo(1 / 4, 12);
    expect(figures.falsePerHour).toBeCloseTo(20, 12);
    expect(figures.fragmentsPerHour).toBeCloseTo(10, 12);
    expect(figures.recallAt80).toBe(0);
  });

  it('says nothing about plateaus shorter than six seconds, found or not', () => {
    const short = truth(10, 15);
    for (const all of [[], [found(10, 15)], [found(11, 14)], [found(8, 15.5)]]) {
      const result = score([short], all);
      expect(result).toMatchObject({
        trueCount: 0,
        falseCount: 0,
        fragmentCount: 0,
        declaredCount: 0,
        withdrawnInside: 0,
        withdrawnOutside: 0,
      });
    }
  });

  it('does not let a short one excuse a plateau that lies mostly elsewhere', () => {
    expect(score([truth(10, 15)], [found(12, 40)]).falseCount).toBe(1);
  });

  it('counts what was said and not logged', () => {
    const brief = found(12, 16);
    const result = score([truth(10, 30)], [found(10, 30), brief, found(50, 62)]);
    expect(result.withdrawnInside).toBe(1);
    expect(result.withdrawnOutside).toBe(1);
    expect(figuresOf(result).withdrawn).toBeCloseTo(2 / 3, 12);
    // Five seconds live, of which one after it was declared: logged, whatever was trimmed after.
    const logged = { ...brief, closed_s: 17 };
    expect(score([truth(10, 30)], [logged]).withdrawnInside).toBe(0);
    expect(score([truth(10, 30)], [{ ...logged, declared_s: 16.5 }]).withdrawnInside).toBe(1);
  });

  it('counts what the method took back itself, but not as found', () => {
    const takenBack = [found(10, 30), found(50, 62), found(70, 73)];
    const plateaus = [truth(10, 30), truth(70, 74)];
    const result = scoreRecording(
      recording(plateaus),
      { plateaus: [], takenBack, hopeless_s: [] },
      0,
    );
    expect(result).toMatchObject({
      declaredCount: 2,
      withdrawnInside: 1,
      withdrawnOutside: 1,
      falseCount: 0,
      matches: [],
    });
  });

  it('scores the still rotor apart', () => {
    const inWind = { start_s: 100, end_s: 120 };
    const calm = { start_s: 140, end_s: 160 };
    const rests = { stillInWind: [inWind], still: [inWind, calm] };
    const plateaus = [truth(10, 30)];
    expect(score(plateaus, [found(10, 30), found(101, 120)], rests)).toMatchObject({
      falseCount: 0,
      declaredCount: 1,
      still: { trueCount: 1, foundCount: 1, falseCount: 0 },
    });
    expect(score(plateaus, [found(145, 160)], rests)).toMatchObject({
      falseCount: 0,
      still: { trueCount: 1, foundCount: 0, falseCount: 1 },
    });
  });
});

describe('a rotor that never settles', () => {
  const long = { start_s: 100, end_s: 140 };
  const said = (hopeless_s: number[]) =>
    scoreRecording(
      recording([truth(10, 60)], { restless: [long, { start_s: 150, end_s: 170 }] }),
      { plateaus: [], takenBack: [], hopeless_s },
      0,
    ).restless;

  it('is to be told of once it has lasted', () => {
    expect(said([])).toEqual({ longCount: 1, toldCount: 0, falseCount: 0 });
    expect(said([131, 132])).toEqual({ longCount: 1, toldCount: 1, falseCount: 0 });
    expect(said([160])).toEqual({ longCount: 1, toldCount: 0, falseCount: 0 });
  });

  it('is not to be told of well inside a plateau', () => {
    expect(said([12]).falseCount).toBe(0);
    expect(said([40, 41]).falseCount).toBe(1);
  });
});

describe('interval', () => {
  const match = (voltage_V: number, degreesOfFreedom: number) => ({
    truth: truth(0, 10),
    found: found(0, 10, { voltage_V, degreesOfFreedom }),
    iou: 1,
  });

  it('uses Student t with the degrees of freedom of the estimate', () => {
    // Any t table: 2.571 for 5 degrees of freedom, 1.962 for 1000. u is 0.01 V.
    expect(covers(match(1.0257, 5))).toBe(true);
    expect(covers(match(1.0258, 5))).toBe(false);
    expect(covers(match(0.9804, 1000))).toBe(true);
    expect(covers(match(0.9803, 1000))).toBe(false);
  });

  it('is reported with coverage, width and error relative to the true mean', () => {
    const total = emptyScore();
    total.trueCount = 2;
    total.matches = [match(1.02, 5), match(0.94, 5)];
    const figures = figuresOf(total);
    expect(figures.coverage).toBe(0.5);
    // Off by 0.778 and 2.334 half widths; type 7 takes the point 95 % of the way between.
    const [near, far] = [0.02 / 0.025706, 0.06 / 0.025706];
    expect(figures.stretchTo95).toBeCloseTo(near + 0.95 * (far - near), 4);
    expect(figures.widthMedian).toBeCloseTo(2 * 2.5706 * 0.01, 5);
    expect(figures.uncertaintyMedian).toBeCloseTo(0.01, 12);
    expect(figures.bias).toBeCloseTo(-0.02, 12);
    expect(figures.errorMedian).toBeCloseTo(0.04, 12);
  });
});

describe('totals', () => {
  it('add up over recordings', () => {
    const total = emptyScore();
    addScore(total, score([truth(10, 30)], [found(10, 30)]));
    addScore(total, score([truth(10, 30)], [found(60, 80)]));
    const figures = figuresOf(total);
    expect(figures).toMatchObject({ trueCount: 2, precision: 0.5, recall: 0.5, f1: 0.5 });
    expect(figures.falsePerHour).toBeCloseTo(5, 12);
    expect(figures.withdrawnOutside).toBe(0.5);
  });

  it('take quantiles of type 7', () => {
    // R: quantile(1:4, c(.5, .9)) gives 2.5 and 3.7 (type 7 is its default).
    expect(quantile([4, 1, 3, 2], 0.5)).toBeCloseTo(2.5, 12);
    expect(quantile([4, 1, 3, 2], 0.9)).toBeCloseTo(3.7, 12);
    expect(quantile([], 0.5)).toBeNaN();
  });
});
