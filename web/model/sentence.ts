/**
 * What can honestly be said of the trials so far. Nothing is compared: without a plan the tool
 * does not know which trials were meant to be alike.
 */
import type { MeasuredValue } from '#core/metrology/measured-value.ts';
import {
  decimalAt,
  expandedUncertainty,
  firstPlace,
  placeOf,
  scaled,
  NO_VALUE,
  UNIT_SPACE,
  type Prefix,
} from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { resultText } from './words.ts';

export interface Sentence {
  readonly said: string;
  readonly small: string;
}

/** Trials that count: recorded to the full length, with power, not struck. */
export function countingTrials(trials: readonly TrialView[]): readonly TrialView[] {
  return trials.filter((trial) => trial.recorded && !trial.struck && trial.power_W !== null);
}

export function sentenceOf(
  trials: readonly TrialView[],
  prefix: Prefix,
  words: Catalogue,
): Sentence {
  const { sentence } = words;
  const counting = countingTrials(trials);
  const [first] = counting;
  if (first === undefined) {
    return nothingSaid(trials.at(-1), words);
  }
  if (counting.length === 1) {
    return { said: sentence.one(written(first, prefix, words)), small: sentence.oneSmall };
  }
  const struck = trials.filter((trial) => trial.struck).length;
  return {
    said: rangeOf(counting, prefix, words),
    small: struck === 0 ? sentence.noPlan : `${sentence.struck(struck)} ${sentence.noPlan}`,
  };
}

function nothingSaid(newest: TrialView | undefined, { sentence }: Catalogue): Sentence {
  if (newest === undefined) return { said: sentence.nothingYet, small: sentence.nothingYetSmall };
  const why = newest.struck ? 'struck' : newest.recorded ? 'noPower' : 'cutOff';
  return { said: sentence.noneCounts, small: sentence.whyNot[why] };
}

function written({ power_W }: TrialView, prefix: Prefix, words: Catalogue): string {
  return power_W === null ? NO_VALUE : resultText(power_W, { power_W: prefix }, words);
}

/** Both ends to the place that the less certain one supports. */
function rangeOf(trials: readonly TrialView[], prefix: Prefix, words: Catalogue): string {
  const powers = trials.flatMap(({ power_W }) => (power_W === null ? [] : [power_W]));
  const sorted = powers.sort((a, b) => a.value - b.value);
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (least === undefined || most === undefined) return '';
  const place = Math.max(lastPlaceOf(least, prefix), lastPlaceOf(most, prefix));
  const [low, high] = [least, most].map(({ value }) => {
    const text = words.number(decimalAt(scaled(value, prefix.exponent), place));
    return { text, withUnit: `${text}${UNIT_SPACE}${prefix.symbol}W` };
  });
  if (low === undefined || high === undefined) return '';
  const { allAt, range } = words.sentence;
  return low.text === high.text
    ? allAt(trials.length, low.withUnit)
    : range(trials.length, low.text, high.withUnit);
}

function lastPlaceOf(power_W: MeasuredValue, prefix: Prefix): number {
  const expanded = expandedUncertainty(power_W);
  if (expanded !== null) return placeOf(scaled(expanded, prefix.exponent));
  return firstPlace(scaled(power_W.value, prefix.exponent) || 1) - 2;
}
