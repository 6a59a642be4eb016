/**
 * Which levels are no longer in the race by the rounds: a few looks, each with a share of the error
 * that is fixed beforehand (error-shares.ts). A round is a block that holds every level that is
 * still in the race.
 *
 * A look is a closed test (R. Marcus, E. Peritz, K. R. Gabriel, Biometrika 63 (1976) 655): each set
 * of levels that could be the tied bests is tested by how far its lowest lies below the highest of
 * all, and a level is out when every set that holds it is. The law of that distance for m of k
 * levels is in studentized-range.ts. Of the sets of m that could save a level those that hold the
 * m highest come closest, so that they need not be gone through one by one. That levels drop out
 * on the way only takes away rivals that could have been too high by chance.
 *
 * When a level joins, rounds begin anew with it, but what was spent on looks before stays spent:
 * else who adds a level now and then would look as often as it pleases.
 */
import { studentizedRange } from '../../statistics/studentized-range.ts';
import { ROUND_SHARES } from './error-shares.ts';
import { possibleByEvidence } from './evidence.ts';
import { fittedTo } from './fitted.ts';
import { levelsOf, type LevelKey, type LevelTrial } from './level-trial.ts';

/** One alone shows no scatter. */
const FEWEST_ROUNDS = 2;

/**
 * Levels that are not a best one.
 * @param trials in the order in which they were made
 */
export function outByRounds(trials: readonly LevelTrial[]): ReadonlySet<LevelKey> {
  return roundsOf(trials).out;
}

interface Rounds {
  readonly out: ReadonlySet<LevelKey>;
  /** The shares of the rounds up to here are spent. */
  readonly spent: number;
}

function roundsOf(trials: readonly LevelTrial[]): Rounds {
  const race = new Set(levelsOf(trials));
  const out = new Set<LevelKey>();
  if (race.size < 2) return { out, spent: 0 };
  const before = spentBeforeJoining(trials);
  const held: LevelTrial[] = [];
  /** Of each block the first trial of every level since it was last a round. */
  const blocks = new Map<LevelTrial['block'], Map<LevelKey, LevelTrial>>();
  let rounds = 0;
  for (const [i, trial] of trials.entries()) {
    if (trial.block === null) continue;
    const block = blocks.get(trial.block) ?? new Map<LevelKey, LevelTrial>();
    blocks.set(trial.block, block);
    if (!block.has(trial.level)) block.set(trial.level, trial);
    if (![...race].every((level) => block.has(level))) continue;
    held.push(...block.values());
    block.clear();
    rounds += 1;
    const share = ROUND_SHARES.get(before + rounds);
    if (rounds < FEWEST_ROUNDS || share === undefined) continue;
    for (const level of outAtLook(held, race, share)) out.add(level);
    const possible = possibleByEvidence(fittedTo(trials.slice(0, i + 1)));
    for (const level of race) if (out.has(level) || !possible.includes(level)) race.delete(level);
    if (race.size < 2) break;
  }
  return { out, spent: before + rounds };
}

/** By how many the rounds are behind because there were looks before the newest level joined. */
function spentBeforeJoining(trials: readonly LevelTrial[]): number {
  const newest = levelsOf(trials).at(-1);
  const joined = trials.findIndex(({ level }) => level === newest);
  // The first round anew is not looked at.
  return joined > 0 ? Math.max(0, roundsOf(trials.slice(0, joined)).spent - 1) : 0;
}

/** @param held the trials of the rounds, at least two */
function outAtLook(
  held: readonly LevelTrial[],
  race: ReadonlySet<LevelKey>,
  share: number,
): LevelKey[] {
  const still = new Set(held.filter(({ value }) => value === 0).map(({ level }) => level));
  const turned = held.filter(({ level }) => !still.has(level));
  const { comparable, estimates, contrasts } = fittedTo(turned);
  const { levels } = comparable;
  const [highest, ...lower] = [...levels.keys()]
    .filter((place) => race.has(levels[place]!))
    .sort((a, b) => estimates[b]! - estimates[a]!);
  const out: LevelKey[] = [];
  // From the lowest up: a level is saved by any level below it that can't be told from the highest.
  for (const [i, place] of [...lower.entries()].reverse()) {
    const student = contrasts(highest!, place)?.student;
    if (student === undefined) return out;
    const law = studentizedRange(levels.length, i + 2);
    if (!(law.upperTail(student.t * Math.SQRT2, student.degreesOfFreedom) < share)) return out;
    out.push(levels[place]!);
  }
  return out;
}
