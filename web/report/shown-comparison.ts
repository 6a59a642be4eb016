/** The tables of the comparison as they are shown: texts, and where their strips lie. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import type { Answer } from '#core/experiment/answer/answer.ts';
import { OWN_SCATTER_FROM } from '#core/experiment/comparison/compare.ts';
import type {
  Comparison,
  LevelKey,
  LevelPair,
  LevelSummary,
} from '#core/experiment/comparison/comparison-schema.ts';
import { ALPHA } from '#core/statistics/groups.ts';
import type { ReportWords, TestName } from '../words/report-words.ts';
import { chanceText, limitsAt, placeFor, powerAt, ratioText, shortOdds, type Writing } from './numbers.ts';

/** A value on its interval, as shares of a common scale. */
export interface Strip {
  readonly at: number;
  readonly low: number;
  readonly high: number;
}

export interface ShownLevel {
  readonly label: string;
  readonly settings: string;
  readonly mean: string;
  readonly limits: string;
  /** Its limits come from within one reading. */
  readonly isLeast: boolean;
  readonly strip: Strip | null;
}

export function shownLevels(
  { answer }: AnalysedPart,
  writing: Writing,
  didNotTurn: string,
): readonly ShownLevel[] {
  const levels = inPlansOrder(answer);
  const most = Math.max(0, ...levels.map(({ mean, high }) => Math.max(mean ?? 0, high ?? 0)));
  return levels.map((level) => {
    const { mean, low, high, count, didNotTurn: still } = level;
    const label = answer.labelOf(level.level);
    const settings = still === 0 ? String(count) : `${count + still} (${still} ${didNotTurn})`;
    const bare = { label, settings, isLeast: level.limitsFrom === 'reading' };
    if (mean === null) return { ...bare, mean: '–', limits: '–', strip: null };
    const place = placeFor(mean, level, writing.prefix);
    const share = (value: number): number => Math.min(Math.max(value / most, 0), 1);
    return {
      ...bare,
      mean: powerAt(mean, place, writing),
      limits: limitsAt(level, place, writing),
      strip: { at: share(mean), low: share(low ?? mean), high: share(high ?? mean) },
    };
  });
}

/** Names come in the order in which they were first measured; the plan's is easier to read. */
export function inPlansOrder({ comparison, settings }: Answer): readonly LevelSummary[] {
  const seatOf = (level: LevelKey): number => {
    const seat = settings.find((one) => one.level === level)?.seat;
    return seat === undefined ? Infinity : seat.level + seat.beside / MOST_BESIDE;
  };
  return [...comparison.levels].sort((a, b) => seatOf(a.level) - seatOf(b.level));
}

/** More than there are combinations of the other factors' levels. */
const MOST_BESIDE = 1000;

const PAIR_METHODS = ['blocked', 'gamesHowell', 'tukey'] as const;
export type PairMethod = (typeof PAIR_METHODS)[number];

export interface ShownPair {
  readonly pair: string;
  readonly difference: string;
  /** By each method that there is, in its order. */
  readonly limits: readonly string[];
  readonly said: string;
  readonly isApart: boolean;
  readonly strip: Strip;
}

export interface ShownPairs {
  /** The first is the one that the words and the strips are by. */
  readonly methods: readonly PairMethod[];
  /** Where no difference at all lies on the strips. */
  readonly nothing: number;
  readonly rows: readonly ShownPair[];
}

/** Letters of two names that stay on one line. */
const ONE_LINE = 12;

/** A line ends between two names at most, never within one. */
function pairText(a: string, b: string): string {
  const [whole, other] = [a, b].map((name) => name.replaceAll(' ', '\u00a0'));
  const space = a.length + b.length <= ONE_LINE ? '\u00a0' : ' ';
  return `${whole}\u00a0−${space}${other}`;
}

/** The higher of each two less the lower, the best first; null where the scatter is not known. */
export function shownPairs(
  { answer: { comparison, labelOf } }: AnalysedPart,
  writing: Writing,
  say: ReportWords['comparison'],
): ShownPairs | null {
  const found = methodsOf(comparison);
  const [main] = found;
  if (main === undefined) return null;
  const pairs = fromTheTop(main.pairs, comparison);
  const least = Math.min(0, ...pairs.map(({ low }) => low));
  const most = Math.max(...pairs.map(({ high }) => high));
  const share = (value: number): number => (value - least) / (most - least);
  const rows = pairs.map((pair): ShownPair => {
    const { a, b, difference, low, high } = pair;
    const isApart = (pairOf(comparison.judged ?? [], a, b).low ?? 0) > 0;
    const place = placeFor(difference, pair, writing.prefix);
    return {
      pair: pairText(labelOf(a), labelOf(b)),
      difference: powerAt(difference, place, writing),
      limits: found.map((one) => limitsAt(pairOf(one.pairs, a, b), place, writing)),
      said: isApart ? say.more : say.notApart,
      isApart,
      strip: { at: share(difference), low: share(low), high: share(high) },
    };
  });
  return { methods: found.map(({ method }) => method), rows, nothing: share(0) };
}

function turned({ a, b, difference, low, high, p }: LevelPair): LevelPair {
  return { a: b, b: a, difference: -difference, low: -high, high: -low, p };
}

function fromTheTop(
  pairs: readonly LevelPair[],
  { levels }: Comparison,
): readonly LevelPair[] {
  const means = new Map(levels.map(({ level, mean }) => [level, mean ?? 0]));
  const meanOf = (level: LevelKey): number => means.get(level) ?? 0;
  return pairs
    .map((pair) => (pair.difference < 0 ? turned(pair) : pair))
    .sort((one, other) => meanOf(other.a) - meanOf(one.a) || meanOf(other.b) - meanOf(one.b));
}

/** By another method, turned the same way. */
function pairOf(
  pairs: readonly Omit<LevelPair, 'p'>[],
  a: LevelKey,
  b: LevelKey,
): Limits {
  const found = pairs.find((one) => one.a === a && one.b === b);
  const opposite = pairs.find((one) => one.a === b && one.b === a);
  if (found !== undefined) return found;
  if (opposite === undefined) return { low: null, high: null };
  return { low: -opposite.high, high: -opposite.low };
}

interface Limits {
  readonly low: number | null;
  readonly high: number | null;
}

/** The most fitting one first: within blocks, else by each level's own scatter once it is known. */
function methodsOf({ blocked, gamesHowell, tukey, levels }: Comparison): {
  method: PairMethod;
  pairs: readonly LevelPair[];
}[] {
  const tried = levels.filter(({ count }) => count > 0);
  const isOwnKnown = tried.every(({ count }) => count >= OWN_SCATTER_FROM);
  const order = isOwnKnown ? PAIR_METHODS : (['blocked', 'tukey', 'gamesHowell'] as const);
  const pairs = { blocked: blocked?.pairs ?? null, gamesHowell, tukey };
  return order.flatMap((method) => {
    const found = pairs[method];
    return found === null || found.length === 0 ? [] : [{ method, pairs: found }];
  });
}

export interface ShownTest {
  readonly name: TestName;
  readonly question: string;
  readonly test: string;
  readonly ratio: string;
  readonly chance: string;
  readonly odds: string;
  readonly said: string;
}

export function shownTests(
  { answer: { comparison }, twoFactors }: AnalysedPart,
  { words }: Writing,
  say: ReportWords,
): readonly ShownTest[] {
  const { anova, welch, blocked } = comparison;
  const table = twoFactors?.table ?? null;
  const effect = (part: { f: number; df: number; p: number } | null | undefined): Tested | null =>
    part ? { f: part.f, freedom: [part.df, table?.dfWithin ?? 0], p: part.p } : null;
  const tests: [TestName, keyof ReportWords['comparison']['test'], string, Tested | null][] = [
    ['blocked', 'blocked', '', blocked && { f: blocked.f, freedom: [blocked.dfBetween, blocked.dfWithin], p: blocked.p }],
    ['anova', 'anova', '', anova && { f: anova.f, freedom: [anova.dfBetween, anova.dfWithin], p: anova.p }],
    ['welch', 'welch', '', welch && { f: welch.f, freedom: [welch.df1, welch.df2], p: welch.p }],
    ['rounds', 'blocked', '', blocked && { f: blocked.fBlock, freedom: [blocked.dfBlock, blocked.dfWithin], p: blocked.pBlock }],
    ['first', 'twoFactor', twoFactors?.first.name ?? '', effect(table?.factor)],
    ['second', 'twoFactor', twoFactors?.second.name ?? '', effect(table?.second)],
    ['interaction', 'twoFactor', '', effect(table?.interaction)],
  ];
  return tests.flatMap(([name, test, factor, found]) => {
    if (found === null) return [];
    const { f, freedom, p } = found;
    return [
      {
        name,
        question: say.comparison.question[name](factor),
        test: say.comparison.test[test],
        ratio: ratioText(f, freedom, words),
        chance: chanceText(p, words),
        odds: shortOdds(p, say),
        said: p < ALPHA ? say.comparison.isSeen : say.comparison.notSeen,
      },
    ];
  });
}

interface Tested {
  readonly f: number;
  readonly freedom: readonly number[];
  readonly p: number;
}
