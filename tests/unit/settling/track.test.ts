import { describe, expect, it } from 'vitest';
import { COLUMNS, type Block } from '#core/signal/settling/block.ts';
import { splitOf, stepIn, stepNearly, stepsClearly } from '#core/signal/settling/departure.ts';
import { createHistory, courseSince, reckonFrom, remember } from '#core/signal/settling/history.ts';
import { driveOf, fitLag, fitLagEvenly } from '#core/signal/settling/lag.ts';
import { createTrack, driveIn, driveMean, driveSlope } from '#core/signal/settling/track.ts';
import { NO_GUSTS } from '#core/signal/wind-gusts.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

const PERIOD_S = 0.2;

function blockOf(value: number, index: number): Block {
  const means = new Array<number>(COLUMNS.length).fill(value);
  return { start_s: index * PERIOD_S, end_s: (index + 1) * PERIOD_S, sampleCount: 10, means, gusts: NO_GUSTS };
}

/** Of a reading of some volts, for longer than is remembered. */
function historyOf(count: number, value: (index: number) => number) {
  const history = createHistory();
  for (let i = 0; i < count; i++) remember(history, blockOf(value(i), i));
  return history;
}

const random = createRandom(11);
const readings = Array.from({ length: 700 }, (_, i) => 2 + 0.001 * i + 0.05 * normal(random));

describe.each([0, 1.3])('running sums, with a lag of %d s', (lag_s) => {
  const history = historyOf(readings.length, (i) => readings[i]!);
  const { course } = courseSince(history, 0, 0)!;
  const [from, to] = [20, course.values.length];
  const track = createTrack({ channel: 'voltage_V', column: 0, course, from, to }, lag_s, PERIOD_S);
  const kept = readings.slice(-course.values.length).slice(from);
  const drive = lag_s === 0 ? [...kept] : driveOf(kept, PERIOD_S, lag_s);

  it('give the mean and slope that adding up again gives', () => {
    for (const count of [5, 40, drive.length]) {
      const part = drive.slice(-count);
      const mean = part.reduce((sum, value) => sum + value, 0) / count;
      const middle = (count - 1) / 2;
      const weighted = part.reduce((sum, value, i) => sum + (i - middle) * (value - mean), 0);
      const slope = (12 * weighted) / (count * (count * count - 1));
      expect(driveMean(track, to - count)).toBeCloseTo(mean, 10);
      expect(driveSlope(track, to - count)).toBeCloseTo(slope, 10);
    }
    expect(Array.from(driveIn(track, track.begin, 2))).toEqual(
      Array.from(drive, (value) => expect.closeTo(value / 2, 12) as number),
    );
  });

  it('find the split that trying every one finds', () => {
    const mean = (part: readonly number[]) => part.reduce((sum, value) => sum + value, 0) / part.length;
    const explained = Array.from(drive.slice(1), (_, i) => {
      const [left, right] = [drive.slice(0, i + 1), drive.slice(i + 1)];
      const apart = mean(left) - mean(right);
      return (apart * apart * left.length * right.length) / drive.length;
    });
    const best = Math.max(...explained);
    const found = stepIn(track, track.begin);
    expect(found.at).toBe(explained.indexOf(best) + 1);
    expect(found.explained).toBeCloseTo(best, 9);
  });
});

describe('a clear step', () => {
  /** A 10 s stretch of 2 V that goes `course` times as high, in noise of 1 % a reading. */
  function isClear(course: (time_s: number) => number): boolean {
    const noise = createRandom(3);
    const history = historyOf(50, (i) => 2 * (course(i * PERIOD_S) + 0.01 * normal(noise)));
    const known = courseSince(history, 0, 0)!;
    const stretch = { channel: 'voltage_V', column: 0, ...known, to: 50 } as const;
    const track = createTrack(stretch, 0, PERIOD_S);
    return stepsClearly(track, { period_s: PERIOD_S, longRunVariance: 0.01 ** 2 * PERIOD_S });
  }

  it('is one of 5 % up or down that has been seen for a while', () => {
    expect(isClear((time_s) => (time_s < 6 ? 1 : 1.05))).toBe(true);
    expect(isClear((time_s) => (time_s < 6 ? 1 : 0.95))).toBe(true);
  });

  it('is none that is small, has hardly been seen or had hardly anything before it', () => {
    expect(isClear((time_s) => (time_s < 6 ? 1 : 1.02))).toBe(false);
    expect(isClear((time_s) => (time_s < 9.5 ? 1 : 1.05))).toBe(false);
    expect(isClear((time_s) => (time_s < 1 ? 1 : 1.05))).toBe(false);
  });

  it('is no ramp, no bend and no noise', () => {
    expect(isClear((time_s) => 1 + 0.02 * time_s)).toBe(false);
    expect(isClear((time_s) => 1 + 0.04 * Math.max(time_s - 5, 0))).toBe(false);
    expect(isClear(() => 1)).toBe(false);
  });
});

describe('a course', () => {
  it('holds missing readings from before, at its start from after', () => {
    const values = [NaN, NaN, 3, NaN, 5];
    const history = historyOf(values.length, (i) => values[i]!);
    expect(courseSince(history, 0, 1)).toMatchObject({ course: { values: [3, 3, 3, 5] }, from: 0 });
    expect(courseSince(history, 0, 0)).toBeNull();
  });

  it('is reckoned anew where readings were struck out', () => {
    const history = historyOf(12, (i) => i);
    for (const i of [8, 9]) history.blocks[i]!.means[0] = NaN;
    reckonFrom(history, 8);
    expect(history.courses[0]!.values.slice(7)).toEqual([7, 7, 7, 10, 11]);
    expect(history.courses[0]!.sums.at(-1)).toBe(28 + 14 + 21);
    expect(history.courses[1]!.sums.at(-1)).toBe(66);
  });
});

describe('a split', () => {
  it('is the earlier of two that are equally good', () => {
    const values = [0, 1, 1, 2];
    const sums = [0, 0, 1, 2, 4];
    expect(splitOf(values.length, (i) => sums[i]!).at).toBe(1);
  });
});

describe('the lag of an approach', () => {
  const LAG_S = 4;

  /** A fan's own lag of 0.9 s, gusts of long-run variance (noise)², then a rotor. */
  function approach(noise: number, seed: number) {
    const gusts = createRandom(seed);
    let level = 0;
    const values = Array.from({ length: 110 }, (_, i) => {
      const wind = 1 - Math.exp((-i * PERIOD_S) / 0.9);
      const drive = 2 * wind * (1 + (noise / Math.sqrt(PERIOD_S)) * normal(gusts));
      level += (drive - level) * (1 - Math.exp(-PERIOD_S / LAG_S));
      return level;
    });
    return historyOf(values.length, (i) => values[i]!).courses[0]!;
  }

  function meanOver(fit: typeof fitLag, noise: number): number {
    const lags = Array.from({ length: 40 }, (_, seed) => fit(approach(noise, seed), 0, PERIOD_S)!);
    return lags.reduce((sum, lag_s) => sum + lag_s, 0) / lags.length;
  }

  it('comes out an eighth too long where nothing gusts, for the fan has a lag too', () => {
    for (const fit of [fitLag, fitLagEvenly]) expect(meanOver(fit, 0) / LAG_S).toBeCloseTo(1.12, 1);
  });

  it('comes out short in gusts by reading against rate of change, less so by both lines', () => {
    const [one, both] = [meanOver(fitLag, 0.06) / LAG_S, meanOver(fitLagEvenly, 0.06) / LAG_S];
    expect(one).toBeLessThan(0.85);
    expect(both).toBeGreaterThan(0.9);
    expect(both).toBeLessThan(1.1);
  });

  it('is not told where nothing approaches', () => {
    const flat = historyOf(110, () => 2).courses[0]!;
    expect(fitLag(flat, 0, PERIOD_S)).toBeNull();
    expect(fitLagEvenly(flat, 0, PERIOD_S)).toBeNull();
  });
});

describe('the split that is looked for near the best of every fourth', () => {
  it('explains nearly what the best of all does where there is a step', () => {
    const noise = createRandom(3);
    for (let turn = 0; turn < 30; turn++) {
      const step = 0.04 + 0.002 * turn;
      const at = 30 + 5 * turn;
      const history = historyOf(220, (i) => 2 + (i < at ? 0 : step) + 0.02 * normal(noise));
      const { course } = courseSince(history, 0, 0)!;
      const readings = { channel: 'voltage_V', column: 0, course, from: 0, to: 220 } as const;
      const track = createTrack(readings, 1, PERIOD_S);
      const best = stepIn(track, track.begin).explained;
      const near = stepNearly(track, track.begin).explained;
      expect(near).toBeLessThanOrEqual(best);
      expect(near).toBeGreaterThan(0.8 * best);
    }
  });
});
