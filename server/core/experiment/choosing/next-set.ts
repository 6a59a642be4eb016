/** A small set of runs among the levels that may be the best. */
import { optimalShares, shareOut } from './allocation.ts';
import type { LevelKey } from './level-trial.ts';
import type { Standing } from './standing.ts';

/** Two levels twice, or the leader twice and two rivals once. */
const SET_SIZE = 4;
/** A level's own scatter counts beside that of all levels with this many degrees of freedom. */
const COMMON_FREEDOM = 4;

/**
 * Levels in the order in which to run them. The leader is among them, for only what stands in one
 * block with it is compared with it.
 * @param among the leader first, then its rivals from the highest down; at least one rival
 */
export function nextSet(standing: Standing, among: readonly LevelKey[]): LevelKey[] {
  const { comparable, estimates, contrasts } = standing;
  const places = among.map((level) => comparable.levels.indexOf(level));
  const [leader = 0] = places;
  const shares = optimalShares(
    places.map((place) => ({
      // A difference within its standard error could be anything up to that.
      gap:
        place === leader
          ? 0
          : Math.max(
              estimates[leader]! - estimates[place]!,
              contrasts(leader, place)?.standardError ?? 0,
              Number.MIN_VALUE,
            ),
      variance: varianceOf(standing, place),
    })),
  );
  const done = places.map(
    (place) => comparable.readings.filter(({ level }) => level === place).length,
  );
  const counts = shareOut(shares, done, SET_SIZE);
  const forLeader = Math.min(Math.max(counts[0]!, 1), SET_SIZE / 2);
  const forRivals = shareOut(shares.slice(1), done.slice(1), SET_SIZE - forLeader);
  return driftFree(among, [forLeader, ...forRivals]);
}

/** A level's scatter, drawn towards that of all levels, for its own trials are few. */
function varianceOf({ fit, comparable }: Standing, place: number): number {
  const known = fit.degreesOfFreedom > 0 ? fit.squares / fit.degreesOfFreedom : 0;
  const common = Math.max(known, comparable.leastVariance);
  const { squares, freedom } = fit.own[place]!;
  return (squares + COMMON_FREEDOM * common) / (freedom + COMMON_FREEDOM);
}

/** What comes twice encloses the rest, A B B A: a steady drift then touches both alike. */
function driftFree(levels: readonly LevelKey[], counts: readonly number[]): LevelKey[] {
  const outer = levels.flatMap((level, i) => Array<LevelKey>(counts[i]! >> 1).fill(level));
  const inner = levels.filter((_, i) => counts[i]! % 2 === 1);
  return [...outer, ...inner, ...outer.toReversed()];
}
