/**
 * Which levels are no longer in the race by the rounds that are whole: a few looks that are fixed
 * beforehand, each with a share of the error of its own, so that together they err in no more
 * experiments than the shares add up to (Bonferroni; the shares as a function of the round: K. K.
 * G. Lan, D. L. DeMets, Biometrika 70 (1983) 659). A class does about three rounds, so most of it
 * is spent there.
 *
 * A look is a closed test (R. Marcus, E. Peritz, K. R. Gabriel, Biometrika 63 (1976) 655): each set
 * of levels that could be the tied bests is tested by how far its lowest lies below the highest of
 * all, and a level is out when every set that holds it is. The law of that distance for m of k
 * levels is in studentized-range.ts. Of the sets of m that could save a level those that hold the
 * m highest come closest, so that they need not be gone through one by one.
 */
import { studentizedRange } from '../../statistics/studentized-range.ts';
import { fittedTo } from './fitted.ts';
import { levelsOf, type LevelKey, type LevelTrial } from './level-trial.ts';

/** The share of experiments in which a look errs, by how many rounds are whole. */
const SHARES: ReadonlyMap<number, number> = new Map([
  [2, 0.004],
  [3, 0.018],
  [4, 0.004],
  [5, 0.002],
  [6, 0.001],
  [7, 0.0005],
  [8, 0.0005],
]);
/** All looks together. */
export const ROUNDS_ERROR_SHARE = [...SHARES.values()].reduce((sum, share) => sum + share, 0);

/** @param trials in the order in which they were made */
export function outByRounds(trials: readonly LevelTrial[]): ReadonlySet<LevelKey> {
  const rounds = wholeRounds(trials);
  const out = [...SHARES].flatMap(([count, share]) =>
    count <= rounds.length ? outAtLook(rounds.slice(0, count).flat(), share) : [],
  );
  return new Set(out);
}

/**
 * The blocks that hold every level, in the order in which they became whole; of a level that comes
 * more often in one, the first trial.
 */
function wholeRounds(trials: readonly LevelTrial[]): LevelTrial[][] {
  const levelCount = levelsOf(trials).length;
  const blocks = new Map<LevelTrial['block'], Map<LevelKey, LevelTrial>>();
  const whole: LevelTrial[][] = [];
  for (const trial of trials) {
    if (trial.block === null) continue;
    const block = blocks.get(trial.block) ?? new Map<LevelKey, LevelTrial>();
    blocks.set(trial.block, block);
    if (block.has(trial.level)) continue;
    block.set(trial.level, trial);
    if (block.size === levelCount) whole.push([...block.values()]);
  }
  return whole;
}

/** @param rounds whole ones, at least two */
function outAtLook(rounds: readonly LevelTrial[], share: number): LevelKey[] {
  const still = new Set(rounds.filter(({ value }) => value === 0).map(({ level }) => level));
  const { comparable, estimates, contrasts } = fittedTo(
    rounds.filter(({ level }) => !still.has(level)),
  );
  const { levels } = comparable;
  const k = levels.length;
  const [highest = 0, ...lower] = [...levels.keys()].sort((a, b) => estimates[b]! - estimates[a]!);
  const out: LevelKey[] = [];
  // From the lowest up: a level is saved by any level below it that can't be told from the highest.
  for (const [i, place] of [...lower.entries()].reverse()) {
    const student = contrasts(highest, place)?.student;
    if (student === undefined) return out;
    const law = studentizedRange(k, i + 2);
    if (!(law.upperTail(student.t * Math.SQRT2, student.degreesOfFreedom) < share)) return out;
    out.push(levels[place]!);
  }
  return out;
}
