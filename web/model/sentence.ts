/**
 * What can honestly be said of the trials so far. Nothing is compared: without a plan the tool
 * does not know which trials were meant to be alike.
 */
import type { MeasuredValue } from '#core/experiment/trial.ts';
import {
  decimalAt,
  expandedUncertainty,
  firstPlace,
  placeOf,
  scaled,
  UNIT_SPACE,
  writeMeasured,
  type Prefix,
} from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';

export interface Sentence {
  readonly said: string;
  readonly small: string;
}

/** Trials that count: recorded to the full length, with power, not struck. */
export function countingTrials(trials: readonly TrialView[]): readonly TrialView[] {
  return trials.filter((trial) => trial.recorded && !trial.struck && trial.power_W !== null);
}

export function sentenceOf(trials: readonly TrialView[], prefix: Prefix): Sentence {
  const counting = countingTrials(trials);
  const [first] = counting;
  if (first === undefined) {
    return {
      said: 'Nothing logged yet.',
      small: 'Each steady stretch becomes a trial by itself.',
    };
  }
  if (counting.length === 1) {
    return {
      said: `One trial so far: ${written(first, prefix)}.`,
      small: 'Do the same again: a single trial can’t tell how far repeats would lie apart.',
    };
  }
  return {
    said: `${counting.length} trials so far, ${rangeOf(counting, prefix)}.`,
    small: `${struckWords(trials)}Which level is best can’t be told without a plan and repeats.`,
  };
}

function written(trial: TrialView, prefix: Prefix): string {
  if (trial.power_W === null) return '–';
  const { value, uncertainty, unit } = writeMeasured(trial.power_W, { unit: 'W', prefix });
  return `${value} ± ${uncertainty}${UNIT_SPACE}${unit}`;
}

/** Both ends to the place that the less certain one supports. */
function rangeOf(trials: readonly TrialView[], prefix: Prefix): string {
  const powers = trials.flatMap(({ power_W }) => (power_W === null ? [] : [power_W]));
  const sorted = powers.sort((a, b) => a.value - b.value);
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (least === undefined || most === undefined) return '';
  const place = Math.max(lastPlaceOf(least, prefix), lastPlaceOf(most, prefix));
  const low = decimalAt(scaled(least.value, prefix.exponent), place);
  const high = decimalAt(scaled(most.value, prefix.exponent), place);
  const unit = `${prefix.symbol}W`;
  if (low === high) return `all at ${low}${UNIT_SPACE}${unit}`;
  return `from ${low} to ${high}${UNIT_SPACE}${unit}`;
}

function lastPlaceOf(power_W: MeasuredValue, prefix: Prefix): number {
  const expanded = expandedUncertainty(power_W);
  if (expanded !== null) return placeOf(scaled(expanded, prefix.exponent));
  return firstPlace(scaled(power_W.value, prefix.exponent) || 1) - 2;
}

function struckWords(trials: readonly TrialView[]): string {
  const struck = trials.filter((trial) => trial.struck).length;
  return struck === 0 ? '' : `${struck} struck and left out. `;
}
