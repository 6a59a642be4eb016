import { describe, expect, it } from 'vitest';
import { adviceWords, reasonWords } from '#core/experiment/choosing/advice-words.ts';
import { adviseNext, type Situation } from '#core/experiment/choosing/advise-next.ts';
import type { LevelTrial } from '#core/experiment/choosing/level-trial.ts';

const LEVELS = [15, 30, 45];
/** Rounds of every level, 15, 30 and 45. */
function situation(rows: readonly (readonly number[])[], left: readonly number[] = []): Situation {
  const trials: LevelTrial[] = rows.flatMap((row, block) =>
    row.map((value, i) => ({ level: LEVELS[i]!, value, block })),
  );
  return { trials, levels: LEVELS, left };
}
const angle = (level: number | string): string => `${level}°`;
const levelsOfSet = (at: Situation): unknown[] => adviseNext(at).set.map(({ level }) => level);

const CLOSE = [
  [37, 35, 11],
  [36, 38, 11.5],
];

describe('adviseNext', () => {
  it('begins with a round of every level', () => {
    const advice = adviseNext(situation([]));
    expect(advice).toMatchObject({ kind: 'run', beginsBlock: true, trialsNeeded: null });
    expect(advice.set.map(({ level }) => level)).toEqual(LEVELS);
    expect(adviceWords(advice, angle)).toBe('Run 15°, 30° and 45°: not every level has been tried yet.');
  });

  it('goes on with a round that has begun', () => {
    const advice = adviseNext(situation([[37]], [45, 30]));
    expect(advice.beginsBlock).toBe(false);
    expect(advice.set.map(({ level }) => level)).toEqual([45, 30]);
  });

  it('has every level set anew once, backwards, before any is singled out', () => {
    expect(levelsOfSet(situation([[37, 35, 11]]))).toEqual([45, 30, 15]);
    expect(adviceWords(adviseNext(situation([[37, 35, 11]])), angle)).toBe(
      'Set 45°, 30° and 15° anew and run again: only that shows how much a setting scatters.',
    );
  });

  it('then runs those that are close, in an order in which a drift cancels', () => {
    const advice = adviseNext(situation([...CLOSE, [36.5, 36, 11.2]]));
    expect(advice).toMatchObject({ kind: 'run', among: [15, 30], beginsBlock: true });
    expect(advice.set.map(({ level }) => level)).toEqual([15, 30, 30, 15]);
    expect(advice.set.map(({ reason }) => reasonWords(reason, angle))).toEqual([
      "can't be told from 30° yet",
      "can't be told from 15° yet",
      "can't be told from 15° yet",
      "can't be told from 30° yet",
    ]);
    expect(adviceWords(advice, angle)).toMatch(
      /^15° and 30° can't be told apart yet\. Next, run 15° twice and 30° twice\./,
    );
  });

  it('stops when the best is known', () => {
    const advice = adviseNext(situation([[37, 11, 4], [36, 11.5, 4.1], [38, 11.2, 3.9]]));
    expect(advice).toEqual({ kind: 'settled', among: [15], set: [], beginsBlock: false, trialsNeeded: 0 });
    expect(adviceWords(advice, angle)).toBe("Settled: 15° is best. More runs won't change that.");
  });

  it('does not stop while a level was never tried', () => {
    const at = situation([[37, 11], [36, 11.5], [38, 11.2]]);
    expect(adviseNext(at).kind).toBe('run');
    // With the leader beside it, or it would be compared with nothing of its own time.
    expect(adviseNext(at).set).toEqual([
      { level: 45, reason: { kind: 'untried' } },
      { level: 15, reason: { kind: 'close', from: 45 } },
    ]);
  });

  it('calls a tie when a lesson would not tell', () => {
    const rows = Array.from({ length: 8 }, (_, i) => (i % 2 === 0 ? [37, 36, 11] : [36, 37.01, 11.5]));
    const advice = adviseNext(situation(rows));
    expect(advice).toMatchObject({ kind: 'tie', among: [30, 15] });
    expect(adviceWords(advice, angle)).toBe(
      '30° and 15° are too close to tell apart: at this scatter it would take more than 100 more trials. ' +
        'Say that they tie.',
    );
  });

  it('has something to do when nothing ever turned', () => {
    expect(adviseNext(situation([[0, 0, 0], [0, 0, 0]])).set.length).toBeGreaterThan(0);
  });
});
