/**
 * Which level gives the most: trials in, the whole answer out. How, from where and what it can't do:
 * docs/comparison.md.
 */
import { bartlett } from '../../statistics/bartlett.ts';
import { blocked, type Blocked } from '../../statistics/blocks.ts';
import { areRowsLinked, type Classified } from '../../statistics/cells.ts';
import { drift } from '../../statistics/drift.ts';
import { gamesHowell } from '../../statistics/games-howell.ts';
import { momentsOf, type Moments, type Pair } from '../../statistics/groups.ts';
import { kruskalWallis } from '../../statistics/kruskal-wallis.ts';
import { oneWay } from '../../statistics/one-way.ts';
import { tukey } from '../../statistics/tukey.ts';
import { twoFactor } from '../../statistics/two-factor.ts';
import { welch } from '../../statistics/welch.ts';
import type { LevelTrial } from '../choosing/level-trial.ts';
import { bestLevel, type Evidence } from './best-level.ts';
import type { ComparedTrial, Comparison, ComparisonInput, LevelKey, LevelPair } from './comparison-schema.ts';
import { guardedBlocks, guardedGroups } from './guarded.ts';
import { groupByLevel, hasTurned, isNumeric, responsesOf, summaryOf, type LevelGroup } from './level-groups.ts';
import { nextTrials } from './next-trials.ts';
import { optimumOf } from './optimum.ts';
import { none } from './optimum-kinds.ts';
import { wordsFor, type Words } from './words.ts';

/** From so many trials at every level on, each level's own scatter is known well enough. */
export const OWN_SCATTER_FROM = 4;
/** More classes than this are no blocks, and would take long. */
const MOST_BLOCKS = 100;

/** Every number that comes out is finite; what can't be told is null. */
export function compare(input: ComparisonInput): Comparison {
  const words = wordsFor(input);
  const groups = groupByLevel(input.trials);
  const turned = groups.filter(hasTurned);
  const levels = groups.map(summaryOf);
  const turnedLevels = levels.filter(({ count }) => count > 0);
  const origin = turned[0]?.trials[0]?.response ?? 0;
  const raw = turned.map((group) => momentsOf(responsesOf(group), origin));
  const moments = withoutRounding(raw, origin);
  const byBlock = classified(turned, origin, ({ block }) => block);
  const keyed = (pairs: readonly Pair[]): LevelPair[] =>
    pairs.map(({ a, b, ...rest }) => ({ a: turned[a]!.level, b: turned[b]!.level, ...rest }));
  const judgedBy = (by: Evidence): NonNullable<Comparison['judged']> =>
    keyed(by.pairs).map(({ a, b, difference, low, high }) => ({ a, b, difference, low, high }));
  const tables = { gamesHowell: gamesHowell(moments), blocked: pick(byBlock, blocked) };
  const isLinked = byBlock === null || areRowsLinked(byBlock);
  const evidence = strongest(moments, { ...tables, byBlock });
  const trials = input.trials.map(asLevelTrial);
  const soFar = input.looks === 'often' ? trials : null;
  const best = bestLevel({ turned: turnedLevels, all: levels, evidence, isLinked, soFar }, words);
  return {
    levels,
    anova: inRange(
      pick(oneWay(moments), ({ f, dfBetween, dfWithin, p }) => {
        return { f, dfBetween, dfWithin, p };
      }),
    ),
    welch: inRange(welch(moments)),
    tukey: inRange(pick(tukey(moments), keyed)),
    gamesHowell: inRange(pick(tables.gamesHowell, keyed)),
    blocked: inRange(pick(tables.blocked, (table) => ({ ...table, pairs: keyed(table.pairs) }))),
    judged: isLinked ? inRange(pick(evidence, judgedBy)) : null,
    twoFactor: inRange(twoFactorOf(turned, origin)),
    equalScatter: inRange(bartlett(moments)),
    ranks: moments.some(({ count }) => count > 1) ? kruskalWallis(turned.map(responsesOf)) : null,
    drift: inRange(driftOf(turned)),
    best,
    optimum: optimumFor(turned, moments, evidence?.pairs ?? null, words),
    next: nextTrials(levels.map(({ level }) => level), trials, best, words),
  };
}

function asLevelTrial(trial: ComparedTrial): LevelTrial {
  const { level, response, didNotTurn, block, standardUncertainty } = trial;
  return { level, value: didNotTurn ? 0 : response, block, standardUncertainty };
}

/** A table from which a number has left the range of doubles tells nothing. */
function inRange<Table>(table: Table | null): Table | null {
  const isInRange = (value: unknown): boolean => {
    if (typeof value === 'number') return Number.isFinite(value);
    return value === null || typeof value !== 'object' || Object.values(value).every(isInRange);
  };
  return isInRange(table) ? table : null;
}

function pick<From, To>(value: From | null, to: (value: From) => To): To | null {
  return value === null ? null : to(value);
}

/** Below this share of the response, differences are those of the digits of a double. */
const ROUNDING = 1e-14;

/** Scatter that only rounding has made is none. */
function withoutRounding(groups: readonly Moments[], origin: number): Moments[] {
  const size = groups.reduce((most, { mean }) => Math.max(most, Math.abs(mean + origin)), 0);
  return groups.map((group) => {
    const isRounding = group.squares <= group.count * (ROUNDING * size) ** 2;
    return isRounding ? { ...group, squares: 0 } : group;
  });
}

/**
 * Within blocks where there are any; else by each level's own scatter once it is known; until then by
 * the common one, of the levels that show any: trials that read exactly the same, as a lamp that
 * stays dark does, tell nothing of how much the others wander. The common scatter is guarded.
 */
function strongest(moments: readonly Moments[], tables: Tables): Evidence | null {
  if (tables.blocked !== null && tables.byBlock !== null) {
    return { method: 'blocked', pairs: guardedBlocks(tables.blocked.pairs, tables.byBlock) };
  }
  const isKnown = moments.every(({ count }) => count >= OWN_SCATTER_FROM);
  if (tables.gamesHowell !== null && isKnown) return { method: 'gamesHowell', pairs: tables.gamesHowell };
  const scattering = moments.filter(({ squares }) => squares > 0);
  const common = tukey(moments, scattering);
  if (common === null) return null;
  return { method: 'tukey', pairs: guardedGroups(common, moments, scattering) };
}

interface Tables {
  readonly gamesHowell: readonly Pair[] | null;
  readonly blocked: Blocked | null;
  readonly byBlock: readonly Classified[] | null;
}

/**
 * Null where some trial has no class, or there are too many.
 * @param origin near the responses, which are counted from it
 */
function classified(
  turned: readonly LevelGroup[],
  origin: number,
  classOf: (trial: ComparedTrial) => LevelKey | null,
): Classified[] | null {
  const classes = new Map<LevelKey, number>();
  const observations: Classified[] = [];
  for (const [row, { trials }] of turned.entries()) {
    for (const trial of trials) {
      const key = classOf(trial);
      if (key === null) return null;
      const column = classes.get(key) ?? classes.size;
      classes.set(key, column);
      observations.push({ row, column, value: trial.response - origin });
    }
  }
  return classes.size > MOST_BLOCKS ? null : observations;
}

function twoFactorOf(turned: readonly LevelGroup[], origin: number): Comparison['twoFactor'] {
  const table = pick(classified(turned, origin, ({ second }) => second), twoFactor);
  return pick(table, ({ rows, columns, interaction, dfWithin }) => ({
    factor: rows,
    second: columns,
    interaction,
    dfWithin,
  }));
}

function driftOf(turned: readonly LevelGroup[]): Comparison['drift'] {
  const ordered = turned.flatMap(({ trials }, group) =>
    trials.map(({ order, response }) => ({ group, order, value: response })),
  );
  const isKnown = (trial: (typeof ordered)[number]): trial is typeof trial & { order: number } =>
    trial.order !== null;
  return ordered.every(isKnown) ? drift(ordered) : null;
}

function optimumFor(
  turned: readonly LevelGroup[],
  moments: readonly Moments[],
  pairs: readonly Pair[] | null,
  words: Words,
): Comparison['optimum'] {
  const places = turned.map(({ level }) => level);
  if (!isNumeric(places)) return none('The levels are names, so nothing lies between them.');
  const levels = places.map((x: number, i) => {
    return { x, moments: moments[i]!, responses: responsesOf(turned[i]!) };
  });
  return optimumOf(levels, pairs, words);
}
