/** The answer plot by levels: distances that are true, names that can be read. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearOf } from '../../../web/draw/clear-of.ts';
import { acrossByLevels, type LevelPlot } from '../../../web/draw/level-marks.ts';
import { trialOf } from './fixtures.ts';

const GROUND = { left: 100, right: 700, rem: 16 };
const angles = (...values: number[]) => values.map((value) => ({ label: `${value}°`, value }));
const plot = (more: Partial<LevelPlot>): LevelPlot => ({
  levels: angles(10, 25, 40, 55, 80),
  besideCount: 1,
  seated: [],
  means: [],
  current: { level: 2, beside: 0 },
  isFinished: false,
  noRun: 'no run',
  notInPlan: 'not in plan',
  others: 'others',
  curve: null,
  most: null,
  ...more,
});
const seatsOf = (levels: LevelPlot['levels']): LevelPlot['seated'] =>
  levels.map((_, level) => ({ trial: trialOf(level + 1, 100), seat: { level, beside: 0 } }));

describe('levels that are numbers', () => {
  it('stand at their true distance', () => {
    const levels = angles(10, 25, 40, 55, 80);
    const xs = acrossByLevels(plot({ levels, seated: seatsOf(levels) }), GROUND).marks.map(({ x }) => x);
    const perDegree = ((xs[4] ?? 0) - (xs[0] ?? 0)) / 70;
    expect(perDegree).toBeGreaterThan(5);
    levels.forEach(({ value }, i) => {
      expect(xs[i]).toBeCloseTo((xs[0] ?? 0) + ((value ?? 0) - 10) * perDegree, 6);
    });
  });

  it('stand so in any order of the list', () => {
    const levels = angles(80, 10, 40);
    const xs = acrossByLevels(plot({ levels, seated: seatsOf(levels) }), GROUND).marks.map(({ x }) => x);
    expect((xs[0] ?? 0) - (xs[1] ?? 0)).toBeCloseTo(((xs[2] ?? 0) - (xs[1] ?? 0)) * (70 / 30), 6);
  });
});

it('levels that are names stand evenly', () => {
  const levels = ['square', 'round', 'swept'].map((label) => ({ label, value: null }));
  const xs = acrossByLevels(plot({ levels, seated: seatsOf(levels) }), GROUND).marks.map(({ x }) => x);
  expect((xs[1] ?? 0) - (xs[0] ?? 0)).toBeCloseTo((xs[2] ?? 0) - (xs[1] ?? 0), 6);
});

describe('names below the axis', () => {
  it('never lie over one another, keep within the plot, and always name the level at work', () => {
    const values = fc.uniqueArray(fc.integer({ min: 0, max: 90 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(values, fc.nat(), fc.integer({ min: 200, max: 900 }), (all, pick, right) => {
        const current = { level: pick % all.length, beside: 0 };
        const { labels } = acrossByLevels(
          plot({ levels: angles(...all), current }),
          { ...GROUND, right },
        );
        expect(labels.filter(({ isNow }) => isNow).map(({ text }) => text)).toEqual([
          `${all[current.level]}°`,
        ]);
        labels.forEach(({ x, text }, i) => {
          const before = labels[i - 1];
          expect(x).toBeGreaterThan(GROUND.left);
          expect(x).toBeLessThan(right);
          // Half a rem a letter is what the words take at most.
          if (before !== undefined)
            expect(x - before.x).toBeGreaterThan(((text.length + before.text.length) / 2) * 8);
        });
      }),
    );
  });

  it('stand below their own level, not below another', () => {
    // Large letters in a narrow plot: there is no room for all five.
    const ground = { left: 0, right: 400, rem: 48 };
    const levels = angles(15, 25, 35, 50, 70);
    for (const level of [0, 1, 2, 3, 4]) {
      const { marks, labels } = acrossByLevels(
        plot({ levels, seated: seatsOf(levels), current: { level, beside: 0 } }),
        ground,
      );
      const own = ({ text }: { text: string }) => marks[levels.findIndex(({ label }) => label === text)]!.x;
      expect(labels.length).toBeGreaterThan(1);
      for (const label of labels) {
        const apart = Math.abs(label.x - own(label));
        const isNearest = marks.every(({ x }) => Math.abs(x - label.x) >= apart);
        expect(isNearest || apart <= 0.75 * ground.rem, `${label.text} at ${level}`).toBe(true);
      }
    }
  });

  it('take a second row where there is one, so that every level has its name', () => {
    // As wide as the room's plot is at 1280 by 720, with a place for trials of no run.
    const ground = { left: 770, right: 1150, rem: 30.24 };
    const levels = angles(8, 20, 35, 50, 70);
    const stray = { trial: trialOf(9, 100), seat: null };
    const seated = [...seatsOf(levels), stray];
    for (const level of [0, 1, 2, 3, 4]) {
      const asked = plot({ levels, seated, current: { level, beside: 0 } });
      const textsOf = (nameRows: number) =>
        acrossByLevels(asked, { ...ground, nameRows }).labels.map(({ text }) => text);
      expect(textsOf(1).length).toBeLessThan(6);
      expect([...textsOf(2)].sort()).toEqual(['20°', '35°', '50°', '70°', '8°', 'others']);
      const { labels, marks } = acrossByLevels(asked, { ...ground, nameRows: 2 });
      for (const { text, x, row } of labels.filter(({ row = 0 }) => row > 0)) {
        const own = marks[levels.findIndex(({ label }) => label === text)]!.x;
        expect(Math.abs(x - own), `${text} in row ${row}`).toBeLessThan(0.75 * ground.rem);
      }
      expect(labels.find(({ isNow }) => isNow)?.row ?? 0).toBe(0);
    }
  });

  it('are shortened where they are long', () => {
    const levels = ['very long name one', 'very long name two', 'three'].map((label) => ({ label, value: null }));
    const { labels } = acrossByLevels(plot({ levels, current: null, isFinished: true }), { ...GROUND, right: 340 });
    expect(labels.map(({ text }) => text)).toEqual([
      expect.stringMatching(/^very.*…$/),
      expect.stringMatching(/^very.*…$/),
      'three',
    ]);
  });
});

describe('long names of levels with a value', () => {
  const levels = ['short blade 60 mm', 'middle', 'a very long blade, 100 mm'].map((label, i) => {
    return { label, value: 60 + 20 * i };
  });
  const textsWithin = (right: number) =>
    acrossByLevels(plot({ levels, current: null, isFinished: true }), { ...GROUND, right }).labels.map(
      ({ text }) => text,
    );

  it('are shortened rather than left out, and what is short leaves its room to them', () => {
    expect(textsWithin(340)).toEqual([
      expect.stringMatching(/^short b.*…$/),
      'middle',
      expect.stringMatching(/^a very.*…$/),
    ]);
  });

  it('are whole where there is room', () => {
    expect(textsWithin(700)).toEqual(levels.map(({ label }) => label));
  });
});

describe('trials that no run has', () => {
  it('have a place of their own, right of all levels', () => {
    const { marks, labels } = acrossByLevels(
      plot({ seated: [...seatsOf(plot({}).levels), { trial: trialOf(9, 50), seat: null }] }),
      GROUND,
    );
    const stray = marks.at(-1);
    expect(stray?.trial.id).toBe(9);
    expect(marks.slice(0, -1).every(({ x }) => x < (stray?.x ?? 0) - 40)).toBe(true);
    expect(labels.at(-1)).toMatchObject({ text: 'no run', x: stray?.x });
  });

  it('share it with those whose level is not in the plan any more, and it says so', () => {
    const takenOut = trialOf(9, 50, { runId: 'r1 angle_deg=20' });
    const { marks, labels } = acrossByLevels(
      plot({ seated: [...seatsOf(plot({}).levels), { trial: takenOut, seat: null }] }),
      GROUND,
    );
    expect(labels.at(-1)).toMatchObject({ text: 'not in plan', x: marks.at(-1)?.x, isNow: false });
  });

  it('leave that place away while there is none', () => {
    const { labels } = acrossByLevels(plot({}), GROUND);
    expect(labels.map(({ text }) => text)).not.toContain('no run');
  });
});

describe('means', () => {
  const mean = (halfWidth: number | null) => ({
    level: 1,
    beside: 0,
    newest: trialOf(4, 200),
    power_W: { mean: 0.2, halfWidth, count: halfWidth === null ? 1 : 3 },
  });
  it('stand right of the dashes, with their line', () => {
    const { means, marks, dash } = acrossByLevels(
      plot({ seated: [{ trial: trialOf(4, 200), seat: { level: 1, beside: 0 } }], means: [mean(0.01)] }),
      GROUND,
    );
    expect(means).toHaveLength(1);
    expect(means[0]).toMatchObject({ power_W: 0.2, halfPower_W: 0.01, isLeast: false });
    expect(means[0]?.x ?? 0).toBeGreaterThan((marks[0]?.x ?? 0) + (dash / 2) * 16);
  });
  it('of one setting are the line of its trial, called the least', () => {
    const { means } = acrossByLevels(plot({ means: [mean(null)] }), GROUND);
    expect(means[0]?.isLeast).toBe(true);
    // The fixture's expanded uncertainty is 2 % of the value.
    expect(means[0]?.halfPower_W).toBeCloseTo(0.004, 3);
  });
});

it('settings side by side never lie over one another', () => {
  const seated = [0, 1].flatMap((level) =>
    [0, 1, 2].map((beside) => ({ trial: trialOf(level * 3 + beside + 1, 100), seat: { level, beside } })),
  );
  const { marks, dash } = acrossByLevels(
    plot({ levels: angles(20, 40), besideCount: 3, seated, current: { level: 0, beside: 0 } }),
    GROUND,
  );
  const xs = marks.map(({ x }) => x);
  xs.slice(1).forEach((x, i) => expect(x - (xs[i] ?? 0)).toBeGreaterThanOrEqual(dash * 16));
});

describe('the curve and where the most lies', () => {
  it('stand by the same scale as the levels, whatever their order', () => {
    const levels = angles(55, 10, 25);
    const curve = [{ at: 25, mean: 0.2, low: 0.1, high: 0.3 }];
    const across = acrossByLevels(
      plot({ levels, seated: seatsOf(levels), curve, most: { low: 10, high: 40 } }),
      GROUND,
    );
    const [at55 = 0, at10 = 0, at25 = 0] = across.marks.map(({ x }) => x);
    expect(across.curve).toEqual([{ ...curve[0], x: at25 }]);
    expect(across.most?.left).toBe(at10);
    expect(across.most?.right).toBeCloseTo(at10 + ((at55 - at10) * 30) / 45, 9);
  });
});

it('trials at other levels have a short name where theirs would take the room of the levels', () => {
  const stray = { trial: trialOf(1, 100, { runId: 'r1 angle_deg=70' }), seat: null };
  const last = (right: number) =>
    acrossByLevels(plot({ seated: [stray] }), { ...GROUND, right }).labels.at(-1)?.text;
  expect([last(700), last(320)]).toEqual(['not in plan', 'others']);
});

describe('a text beside marks', () => {
  const box = (left: number, top: number, width = 40, height = 12) => {
    return { left, top, right: left + width, bottom: top + height };
  };
  it('stands where it would best where that is free, else above all that is in its way', () => {
    expect(clearOf(box(0, 100), [box(50, 100), box(0, 113), box(0, 80)])).toBe(100);
    expect(clearOf(box(0, 100), [box(30, 105)])).toBe(93);
    expect(clearOf(box(0, 100), [box(30, 90), box(10, 105)])).toBe(78);
  });
  it('touches none of them, wherever they are', () => {
    const any = fc.record({ left: fc.integer({ min: 0, max: 99 }), top: fc.integer({ min: 0, max: 99 }) });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 12 }), any, (all, { left, top }) => {
        const others = all.map((one) => box(one.left, one.top, 20, 7));
        const at = box(left, clearOf(box(left, top), others));
        expect(at.top).toBeLessThanOrEqual(top);
        const over = others.filter((one) =>
          one.left < at.right && one.right > at.left && one.top < at.bottom && one.bottom > at.top);
        expect(over).toEqual([]);
      }),
    );
  });
});
