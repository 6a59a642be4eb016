/** The level that is highest, which others can't be told apart from it, and that as a sentence. */
import type { Pair } from '../../statistics/groups.ts';
import type { Best, LevelKey, LevelSummary } from './comparison-schema.ts';
import { listed, moreThan, type Words } from './words.ts';

/** The differences that the judgement rests on. */
export interface Evidence {
  readonly method: NonNullable<Best['method']>;
  readonly pairs: readonly Pair[];
}

/**
 * @param turned levels in which the rotor turned, in the order of the pairs' places
 * @param evidence null where nothing is known of the scatter
 */
export function bestLevel(
  turned: readonly LevelSummary[],
  all: readonly LevelSummary[],
  evidence: Evidence | null,
  words: Words,
): Best {
  const none = { level: null, tiedWith: [], method: null, lead: null };
  if (all.length === 0) return { ...none, reason: 'nothing-turned', statement: 'There are no trials yet.' };
  if (turned.length === 0) {
    const statement = 'The blades did not turn in any trial, so no level can be called the best.';
    return { ...none, reason: 'nothing-turned', statement };
  }
  const differences = evidence?.pairs ?? plainPairs(turned);
  const order = ranking(turned.length, differences);
  const best = order[0]!;
  const lead = leadOf(turned, differences, [best, order[1]], evidence !== null);
  const tied = order.slice(1).filter((other) => {
    if (evidence === null) return true;
    return seen(differences, best, other).low <= 0;
  });
  const level = turned[best]!.level;
  const tiedWith = tied.map((place) => turned[place]!.level);
  const reason = reasonOf(turned, evidence, tied.length);
  const said = sentenceOf(reason, { level, tiedWith, others: turned.length - 1 - tied.length, lead }, words);
  const statement = [said, ...whatDidNotTurn(all, words)].join(' ');
  return { level, tiedWith, reason, method: evidence?.method ?? null, lead, statement };
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
  if (lead.share !== null) return `${moreThan(lead.share, words.response)} ${over}`;
  return `about ${words.amount(lead.difference)} more than ${over}`;
}

function whatDidNotTurn(all: readonly LevelSummary[], words: Words): string[] {
  const never = all.filter(({ count, didNotTurn }) => count === 0 && didNotTurn > 0);
  const sometimes = all.filter(({ count, didNotTurn }) => count > 0 && didNotTurn > 0);
  const names = (some: readonly LevelSummary[]): string => listed(some.map((one) => words.level(one.level)));
  return [
    ...(never.length > 0 ? [`At ${names(never)} the blades did not turn.`] : []),
    ...(sometimes.length > 0 ? [`At ${names(sometimes)} they did not always turn.`] : []),
  ];
}
