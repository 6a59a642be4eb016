/** The level that is highest, which others can't be told apart from it, and that as a sentence. */
import type { Pair } from '../../statistics/groups.ts';
import { chooseBest } from '../choosing/choose-best.ts';
import type { LevelTrial } from '../choosing/level-trial.ts';
import type { Best, LevelKey, LevelSummary } from './comparison-schema.ts';
import { listed, moreThan, type Words } from './words.ts';

/** The differences that the judgement rests on. */
export interface Evidence {
  readonly method: 'tukey' | 'gamesHowell' | 'blocked';
  readonly pairs: readonly Pair[];
}

/** Which level, and which others, by their places among those that turned. */
interface Verdict {
  readonly best: number;
  readonly tied: readonly number[];
}

interface Question {
  /** Levels in which the rotor turned, in the order of the pairs' places. */
  readonly turned: readonly LevelSummary[];
  readonly all: readonly LevelSummary[];
  /** Null where nothing is known of the scatter. */
  readonly evidence: Evidence | null;
  /** Whether there are no blocks, or they let every two levels be compared. */
  readonly isLinked: boolean;
  /** All trials in their order where the answer is looked at while they are made, else null. */
  readonly soFar: readonly LevelTrial[] | null;
}

export function bestLevel(question: Question, words: Words): Best {
  const { turned, all, soFar } = question;
  // Looked at often, every pair is asked for itself whether blocks link it.
  const isLinked = question.isLinked || soFar !== null;
  const evidence = isLinked ? question.evidence : null;
  const none = { level: null, tiedWith: [], method: null, lead: null };
  if (all.length === 0) return { ...none, reason: 'nothing-turned', statement: 'There are no trials yet.' };
  if (turned.length === 0) {
    const statement = 'The blades did not turn in any trial, so no level can be called the best.';
    return { ...none, reason: 'nothing-turned', statement };
  }
  const differences = evidence?.pairs ?? plainPairs(turned);
  const order = ranking(turned.length, differences);
  const { best, tied } =
    (soFar !== null && evidence !== null ? whileLooking(turned, soFar) : null) ??
    atOnce(order, evidence);
  const second = order.find((place) => place !== best);
  const lead = leadOf(turned, differences, [best, second], evidence !== null);
  const level = turned[best]!.level;
  const tiedWith = tied.map((place) => turned[place]!.level);
  const reason = isLinked ? reasonOf(turned, evidence, tied.length) : reasonApart(turned);
  const said = { level, tiedWith, others: turned.length - 1 - tied.length, lead };
  const statement = [
    sentenceOf(reason, said, words),
    ...(isLinked || reason !== 'tied' ? [] : [APART]),
    ...whatDidNotTurn(all, words),
  ].join(' ');
  const byPairs = evidence?.method ?? null;
  const method = soFar !== null && byPairs !== null ? 'every-look' : byPairs;
  return { level, tiedWith, reason, method, lead, statement };
}

/** For trials that are all done: those whose difference from the highest may be none. */
function atOnce(order: readonly number[], evidence: Evidence | null): Verdict {
  const [best = 0, ...others] = order;
  if (evidence === null) return { best, tied: others };
  return { best, tied: others.filter((other) => seen(evidence.pairs, best, other).low <= 0) };
}

/** For trials that are still being made: what holds however often one looks. */
function whileLooking(
  turned: readonly LevelSummary[],
  soFar: readonly LevelTrial[],
): Verdict | null {
  const { leader, tiedWith } = chooseBest(soFar);
  const best = turned.findIndex(({ level }) => level === leader);
  if (best < 0) return null;
  const places = tiedWith.map((tied) => turned.findIndex(({ level }) => level === tied));
  return { best, tied: places.filter((place) => place >= 0) };
}

/** The difference from the side of `a`. */
export function seen(pairs: readonly Pair[], a: number, b: number): Omit<Pair, 'p'> {
  const same = pairs.find((pair) => pair.a === a && pair.b === b);
  if (same !== undefined) return same;
  const turned = pairs.find((pair) => pair.a === b && pair.b === a)!;
  return { a, b, difference: -turned.difference, low: -turned.high, high: -turned.low };
}

function plainPairs(turned: readonly LevelSummary[]): Pair[] {
  return turned.flatMap((one, a) =>
    turned.slice(0, a).map((other, b) => {
      const difference = (one.mean ?? 0) - (other.mean ?? 0);
      return { a, b, difference, low: difference, high: difference, p: 1 };
    }),
  );
}

/** Places of the levels, the highest first. */
function ranking(count: number, pairs: readonly Pair[]): number[] {
  const below = new Array<number>(count).fill(0);
  for (const { a, b, difference } of pairs) {
    if (difference > 0) below[a]! += 1;
    if (difference < 0) below[b]! += 1;
  }
  return below.map((_, place) => place).sort((one, other) => below[other]! - below[one]!);
}

function leadOf(
  turned: readonly LevelSummary[],
  pairs: readonly Pair[],
  [best, second]: readonly [number, number | undefined],
  withLimits: boolean,
): Best['lead'] {
  if (second === undefined) return null;
  const { difference, low, high } = seen(pairs, best, second);
  const { level: over, mean } = turned[second]!;
  const share = mean !== null && mean > 0 ? difference / mean : null;
  return {
    over,
    difference,
    share: share !== null && Number.isFinite(share) ? share : null,
    low: withLimits ? low : null,
    high: withLimits ? high : null,
  };
}

function reasonOf(
  turned: readonly LevelSummary[],
  evidence: Evidence | null,
  tied: number,
): Best['reason'] {
  if (turned.length === 1) return 'one-level';
  if (turned.every(({ count }) => count < 2)) return 'tried-once';
  if (evidence === null) return 'no-scatter';
  return tied === 0 ? 'clear' : 'tied';
}

const APART =
  'They were not all run in the same blocks, so it may be the blocks that differ. Run them together.';

/** Of levels that no chain of blocks links: what differs may be the blocks. */
function reasonApart(turned: readonly LevelSummary[]): Best['reason'] {
  return turned.every(({ count }) => count < 2) ? 'tried-once' : 'tied';
}

interface Said {
  readonly level: LevelKey;
  readonly tiedWith: readonly LevelKey[];
  /** Levels that are told apart from the highest. */
  readonly others: number;
  readonly lead: Best['lead'];
}

function sentenceOf(reason: Best['reason'], said: Said, words: Words): string {
  const { level, tiedWith, others, lead } = said;
  const name = words.level(level);
  const { response } = words;
  switch (reason) {
    case 'nothing-turned':
    case 'one-level':
      return `There is nothing to compare yet: only ${name} was tried. Try another level.`;
    case 'tried-once':
      return `${name} shows the most ${response} so far, but each level was tried only once, so nobody can know yet how much it changes when it is set again. Run every level once more.`;
    case 'no-scatter':
      if (lead?.difference === 0) return 'The highest levels read exactly the same, at each trial: write down more digits to see one ahead.';
      return `${name} shows the most ${response}, but the trials at each level read exactly the same, so it can't be seen how much they wander. Write down more digits.`;
    case 'tied': {
      const rest = others > 0 ? '; every other level gives less' : '';
      return `${name} shows the most ${response} so far, but it can't be told apart yet from ${listed(tiedWith.map(words.level))}${rest}.`;
    }
    case 'clear':
      return `${name} gives the most ${response}: ${sizeOf(lead, words)}.`;
  }
}

function sizeOf(lead: Best['lead'], words: Words): string {
  if (lead === null) return 'more than the others';
  const over = `${words.level(lead.over)}, the next best`;
  if (!(lead.difference > 0)) return 'more than the others';
  if (lead.share !== null) return `${moreThan(lead.share, words.response)} ${over}`;
  return `about ${words.amount(lead.difference)} more than ${over}`;
}

function whatDidNotTurn(all: readonly LevelSummary[], words: Words): string[] {
  const never = all.filter(({ count, didNotTurn }) => count === 0 && didNotTurn > 0);
  const sometimes = all.filter(({ count, didNotTurn }) => count > 0 && didNotTurn > 0);
  const names = (some: readonly LevelSummary[]): string =>
    listed(some.map((one) => words.level(one.level)));
  return [
    ...(never.length > 0 ? [`At ${names(never)} the blades did not turn.`] : []),
    ...(sometimes.length > 0 ? [`At ${names(sometimes)} they did not always turn.`] : []),
  ];
}
