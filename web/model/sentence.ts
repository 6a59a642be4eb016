/**
 * What can honestly be said of the trials so far. Nothing is compared: without a plan the tool
 * does not know which trials were meant to be alike.
 */
import { UNIT_SPACE, writeMeasured, type Prefix } from '#core/metrology/format.ts';
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

function rangeOf(trials: readonly TrialView[], prefix: Prefix): string {
  const sorted = [...trials].sort((a, b) => (a.power_W?.value ?? 0) - (b.power_W?.value ?? 0));
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (least === undefined || most === undefined) return '';
  const low = writtenValue(least, prefix);
  const high = writtenValue(most, prefix);
  const unit = `${prefix.symbol}W`;
  if (low === high) return `all at ${low}${UNIT_SPACE}${unit}`;
  return `from ${low} to ${high}${UNIT_SPACE}${unit}`;
}

function writtenValue({ power_W }: TrialView, prefix: Prefix): string {
  return power_W === null ? '–' : writeMeasured(power_W, { unit: 'W', prefix }).value;
}

function struckWords(trials: readonly TrialView[]): string {
  const struck = trials.filter((trial) => trial.struck).length;
  return struck === 0 ? '' : `${struck} struck and left out. `;
}
