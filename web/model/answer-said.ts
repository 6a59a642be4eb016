/**
 * The answer so far in words: which level is best and by how much, or which can't be told apart,
 * and what to do next. No more certain than the comparison.
 */
import type { Answer } from '#core/experiment/answer/answer.ts';
import type { Advice } from '#core/experiment/choosing/advise-next.ts';
import type { Comparison } from '#core/experiment/comparison/comparison-schema.ts';
import { decimalAt, firstPlace, UNIT_SPACE, writeMeasured } from '#core/metrology/format.ts';
import type { Fitted } from '#core/rotor/fitting/fitted.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { placeText } from './place-text.ts';
import type { Sentence } from './sentence.ts';

/** A number beyond which more trials need not be counted. */
const MANY_TRIALS = 100;

/** null where no level has a result yet. */
export function answerSaid(answer: Answer, words: Catalogue): Sentence | null {
  const { comparison, advice } = answer;
  if (comparison.levels.length === 0) return null;
  const small = [
    orderSaid(answer, words),
    creptSaid(answer, words),
    ...turningSaid(answer, words),
    ...optimumSaid(answer, words),
    ...loadSaid(answer, words),
    reasonSmall(comparison, words),
    advice === null ? '' : adviceSaid(advice, answer, words),
  ];
  return { said: bestSaid(answer, words), small: small.filter((text) => text !== '').join(' ') };
}

function bestSaid({ comparison, labelOf }: Answer, words: Catalogue): string {
  const { best } = comparison;
  const say = words.answer;
  const label = best.level === null ? '' : labelOf(best.level);
  switch (best.reason) {
    case 'nothing-turned':
      return say.nothingTurned;
    case 'one-level':
      return oneSaid(label, comparison, words);
    case 'tried-once':
      return say.triedOnce(label);
    case 'tied':
      return say.tied(label, namesOf(best.tiedWith.map(labelOf), words));
    case 'no-scatter':
    case 'clear':
      return best.lead === null
        ? oneSaid(label, comparison, words)
        : say.best(label, moreSaid(best.lead.share ?? 0, words), labelOf(best.lead.over));
  }
}

function oneSaid(label: string, { levels }: Comparison, { sentence }: Catalogue): string {
  return levels.length > 1 ? sentence.onlyTurned(label) : sentence.oneLevel(label);
}

/** At most three names are read from the back of a room, and no long list of long ones. */
const MOST_NAMES = 3;
const MOST_LETTERS = 40;

function namesOf(labels: readonly string[], words: Catalogue): string {
  const names = words.list(labels);
  const isLong = labels.length > MOST_NAMES || (labels.length > 1 && names.length > MOST_LETTERS);
  return isLong ? words.answer.others(labels.length) : names;
}

function moreSaid(share: number, words: Catalogue): string {
  const { percentMore, timesAsMuch } = words.answer;
  return share >= 1
    ? timesAsMuch(twoDigits(1 + share, words))
    : percentMore(twoDigits(100 * share, words));
}

function twoDigits(value: number, words: Catalogue): string {
  return words.number(value === 0 ? '0' : decimalAt(value, firstPlace(value) - 1));
}

/** A best level that was named, or leads, may be what crept. */
function orderSaid({ isSameOrder, comparison: { best } }: Answer, words: Catalogue): string {
  return isSameOrder && best.reason !== 'nothing-turned' ? words.answer.sameOrder : '';
}

/** Nothing is corrected for it, and that is said. */
function creptSaid({ crept }: Answer, words: Catalogue): string {
  if (crept === null) return '';
  const { share, isWithinRounds } = crept;
  const percent = `${Math.abs(100 * share).toFixed(0)}${UNIT_SPACE}%`;
  return words.answer.crept({ percent, isFall: share < 0, isWithinRounds });
}

function turningSaid({ comparison, labelOf }: Answer, words: Catalogue): string[] {
  const still = comparison.levels.filter(({ didNotTurn }) => didNotTurn > 0);
  const never = still.filter(({ count }) => count === 0).map(({ level }) => labelOf(level));
  const sometimes = still.filter(({ count }) => count > 0).map(({ level }) => labelOf(level));
  const { didNotTurn, notAlwaysTurned } = words.answer;
  return [
    ...(never.length > 0 && comparison.best.level !== null
      ? [didNotTurn(namesOf(never, words))]
      : []),
    ...(sometimes.length > 0 ? [notAlwaysTurned(namesOf(sometimes, words))] : []),
  ];
}

function optimumSaid(answer: Answer, words: Catalogue): string[] {
  const { comparison, optimum, factor, labelOf } = answer;
  // Levels that can't be told apart are said first; the plot shows the rest.
  if (optimum === null || comparison.best.reason !== 'clear') return [];
  const { mostBetween, mostAtEdge } = words.answer;
  if (optimum.kind === 'edge' && optimum.at !== null) return [mostAtEdge(labelOf(optimum.at))];
  if (optimum.kind !== 'interior' || optimum.low === null || optimum.high === null) return [];
  // Of a load it is said in ohms, whichever level is best.
  if (answer.load?.kind === 'known') return [];
  // One digit of their distance, two where it begins with 1 or 2.
  const step = (optimum.high - optimum.low) / 3;
  // Rounded, a level that was tried could lie outside of what was tried.
  const write = (at: number): string =>
    factor.levels.find(({ value }) => value === at)?.label ?? placeText(factor, at, step, words);
  return [mostBetween(write(optimum.low), write(optimum.high))];
}

/** Nothing while runs are to come: its limits hold for one look. */
export function loadSaid({ load, optimum }: Answer, words: Catalogue): string[] {
  const say = words.answer.load;
  if (load === null || optimum === null) return [];
  if (load.kind === 'none') return [say.none[load.why]];
  const match = say.match(fittedText(load.resistance_Ohm, 'Ω', words));
  return load.isWindRead ? [match] : [match, say.windUnread];
}

/** What that rests on, at length. */
export function sourceSaid({ load, optimum }: Answer, words: Catalogue): string[] {
  if (load?.kind !== 'known' || optimum === null) return [];
  const [emf, resistance] = [load.emf_V, load.resistance_Ohm];
  const say = words.answer.load.source;
  return [say(fittedText(emf, 'V', words), fittedText(resistance, 'Ω', words))];
}

const NO_PREFIX = { symbol: '', exponent: 0 } as const;

function fittedText(fitted: Fitted, unit: string, { number }: Catalogue): string {
  const { value, uncertainty } = writeMeasured(fitted, { unit, prefix: NO_PREFIX, digits: 'full' });
  return `${number(value)} ± ${number(uncertainty)}${UNIT_SPACE}${unit}`;
}

function reasonSmall({ best: { reason } }: Comparison, words: Catalogue): string {
  switch (reason) {
    case 'tried-once':
      return words.answer.triedOnceSmall;
    case 'no-scatter':
      return words.answer.sameReadings;
    case 'one-level':
      return words.sentence.oneSmall;
    default:
      return '';
  }
}

function adviceSaid(advice: Advice, { labelOf, isSameOrder }: Answer, words: Catalogue): string {
  const say = words.answer;
  // Further trials in that order settle nothing.
  if (advice.kind === 'settled') return isSameOrder ? '' : say.settled;
  if (advice.kind === 'tie') return say.tie(words.list(advice.among.map(labelOf)));
  const counts = new Map<string, number>();
  for (const { level } of advice.set) {
    const label = labelOf(level);
    counts.set(label, (counts.get(label) ?? 0) + 1);
  }
  const levels = [...counts].map(([label, n]) => (n === 1 ? label : say.levelTimes(label, n)));
  return [say.run(words.list(levels)), ...effortSaid(advice, words)].join(' ');
}

function effortSaid({ trialsNeeded }: Advice, words: Catalogue): string[] {
  if (trialsNeeded === null) return [];
  const { itTakes, itTakesMany } = words.answer;
  return [trialsNeeded > MANY_TRIALS ? itTakesMany(MANY_TRIALS) : itTakes(trialsNeeded)];
}
