/** What of some trials is to be put right, as it is being typed. */
import type { Command } from '#core/experiment/command.ts';
import {
  AS_MEASURED,
  canCorrect,
  CORRECTABLE,
  correctedBy,
  measuredOf,
  type Correctable,
  type Line,
} from '#core/experiment/correction.ts';
import { quantityUnits, type KeyedFault } from '#core/experiment/keyed-form.ts';
import type { Factor, Level, Plan } from '#core/experiment/plan/plan.ts';
import { addressOf, madeByHand } from '#core/experiment/trial-book.ts';
import type { TrialView } from '#core/live-messages.ts';
import { rectangular } from '#core/instrument/tolerance.ts';
import {
  NotUnderstood,
  readTyped,
  type TypedFault,
  type TypedUnits,
} from '#core/metrology/typed-number.ts';
import { unitOf, type Prefixes } from '../model/quantities.ts';
import { readLevels } from '../plan/levels-text.ts';
import { usualUnit } from '../plan/units.ts';

export interface Draft {
  /** A quantity, or the key of a factor whose level was another one. */
  readonly what: string;
  readonly truly: string;
  /** Whether all readings are wrong by the same factor, or by the same amount. */
  readonly by: 'factor' | 'amount';
  /** How well that is known, "2 %" or "0.05 V"; "": nobody has said. */
  readonly within: string;
  readonly knownAs: 'limits' | 'standard';
  /** Numbers of the first and the last trial that it is so in. */
  readonly first: number;
  readonly last: number;
  /** Also what is read from now on. */
  readonly isFromNow: boolean;
}

export type Fault =
  | TypedFault
  | { readonly kind: 'not-zero' }
  | { readonly kind: 'not-above-zero' }
  | { readonly kind: 'one-level' };
export type FaultyField = 'truly' | 'within';

export type ReadDraft =
  | { readonly command: Command; readonly line: Line | null; readonly trials: readonly TrialView[] }
  | { readonly fault: Fault; readonly at: FaultyField };

/** The factors whose level this trial has in the plan. */
export function factorsOfTrial(trial: TrialView, plan: Plan | null): readonly Factor[] {
  return (plan?.factors ?? []).filter((factor) => levelOfTrial(trial, factor) !== undefined);
}

export function levelOfTrial(
  { runId, factors }: TrialView,
  { key, levels }: Factor,
): Level | undefined {
  if (runId === null) return undefined;
  return levels.find(({ value, label }) => (value ?? label) === factors[key]);
}

/** What can be put right of a trial: readings that it has, levels that it is at. */
export function choicesFor(trial: TrialView, plan: Plan | null): readonly string[] {
  const measured = measuredOf(trial);
  return [
    ...CORRECTABLE.filter((quantity) => measured[quantity] !== null),
    ...factorsOfTrial(trial, plan).map(({ key }) => key),
  ];
}

/** Trials read in the same way: by the board, or by hand. */
export function alike(trial: TrialView, trials: readonly TrialView[]): readonly TrialView[] {
  return trials.filter((other) => madeByHand(other) === madeByHand(trial));
}

/** At first all around it that were read and corrected as it was. */
export function draftFor(trial: TrialView, trials: readonly TrialView[], what: string): Draft {
  const all = alike(trial, trials);
  const isSame = (other: TrialView): boolean =>
    other.recordingId === trial.recordingId &&
    JSON.stringify(other.correction?.by) === JSON.stringify(trial.correction?.by);
  const at = all.findIndex(({ id }) => id === trial.id);
  const before = all.slice(0, at + 1).findLastIndex((other) => !isSame(other));
  const after = all.slice(at).findIndex((other) => !isSame(other));
  const first = all[before + 1] ?? trial;
  const last = (after < 0 ? all.at(-1) : all[at + after - 1]) ?? trial;
  const { id } = trial;
  return {
    ...{ what, truly: '', by: 'factor', within: '', knownAs: 'limits', isFromNow: false },
    ...(at < 0 ? { first: id, last: id } : { first: first.id, last: last.id }),
  };
}

/** Those of the range in which it can be put right. */
export function chosenTrials(
  { what, first, last, by }: Draft,
  trial: TrialView,
  trials: readonly TrialView[],
): readonly TrialView[] {
  const quantity = CORRECTABLE.find((one) => one === what);
  if (quantity === undefined) return [];
  const line = { offset: by === 'amount' ? 1 : 0 };
  return alike(trial, trials).filter(
    (one) => first <= one.id && one.id <= last && canCorrect(measuredOf(one), quantity, line),
  );
}

/** What is on the page while it is typed. */
interface Shown {
  readonly trials: readonly TrialView[];
  readonly plan: Plan | null;
  readonly prefixes: Prefixes;
}

/** The command that does what is typed, or why it can't be said. */
export function readDraft(
  draft: Draft,
  trial: TrialView,
  shown: Shown,
): ReadDraft {
  const quantity = CORRECTABLE.find((one) => one === draft.what);
  if (quantity === undefined) return readRelabel(draft, trial, shown);
  const { trials, prefixes } = shown;
  const units = quantityUnits(quantity, unitOf(quantity, prefixes[quantity]));
  const measured = measuredOf(trial)[quantity]?.value ?? 0;
  let at: FaultyField = 'truly';
  try {
    const truly = readTyped(draft.truly, units, '2.31').value;
    if (draft.by === 'factor' && measured * truly === 0) return { fault: { kind: 'not-zero' }, at };
    at = 'within';
    const within = readWithin(draft.within, truly, units);
    if (within !== null && !(within > 0)) return { fault: { kind: 'not-above-zero' }, at };
    const line = { ...lineOf(draft.by, measured, truly), ...known(draft, truly, within) };
    const chosen = chosenTrials(draft, trial, trials);
    const addresses = chosen.map(addressOf);
    return { command: { say: 'correct', trials: addresses, quantity, line }, line, trials: chosen };
  } catch (error) {
    if (!(error instanceof NotUnderstood)) throw error;
    return { fault: error.fault, at };
  }
}

function lineOf(by: Draft['by'], measured: number, truly: number): Line {
  return by === 'factor'
    ? { gain: truly / measured, offset: 0 }
    : { gain: 1, offset: truly - measured };
}

/** "2 %" of what it truly was, or an amount; a number alone is in per cent. Null: nothing typed. */
function readWithin(text: string, truly: number, { known }: TypedUnits): number | null {
  if (text.trim() === '') return null;
  const percent = { multiplier: Math.abs(truly), divisor: 100 };
  return readTyped(text, { usual: '%', known: { '%': percent, ...known } }, '2').value;
}

/** @param within of what it truly was, SI */
function known(
  { by, knownAs }: Draft,
  truly: number,
  within: number | null,
): Pick<Line, 'knownTo'> {
  if (within === null) return {};
  const u = knownAs === 'limits' ? rectangular(within) : within;
  const distribution = knownAs === 'limits' ? 'rectangular' : 'normal';
  return by === 'factor'
    ? { knownTo: { of: 'gain', standardUncertainty: u / Math.abs(truly), distribution } }
    : { knownTo: { of: 'offset', standardUncertainty: u, distribution } };
}

/** What is known to within it, as a share of the value or as an amount; null where nobody said. */
export function knownWithin({ knownTo }: Line): { share: number } | { amount: number } | null {
  if (knownTo === undefined) return null;
  const { of, standardUncertainty, distribution } = knownTo;
  const within = distribution === 'rectangular' ? Math.sqrt(3) * standardUncertainty : standardUncertainty;
  return of === 'gain' ? { share: within } : { amount: within };
}

function readRelabel(
  { what, truly }: Draft,
  trial: TrialView,
  { trials, plan }: Shown,
): ReadDraft {
  const factor = plan?.factors.find(({ key }) => key === what);
  const level = factor && levelOfTrial(trial, factor);
  const none: ReadDraft = { fault: { kind: 'one-level' }, at: 'truly' };
  if (factor === undefined || level === undefined) return none;
  const unit = unitOfLabel(level) || usualUnit(factor.kind);
  const [to, ...more] = readLevels(truly, factor.kind, unit);
  if (to === undefined || more.length > 0) return none;
  return {
    command: { say: 'relabel', factor: factor.key, from: level.label, to },
    line: null,
    trials: trials.filter((one) => levelOfTrial(one, factor) === level),
  };
}

/** "°" of "25°", "mm" of "80 mm"; "" for a level that is only a name. */
function unitOfLabel({ label, value }: Level): string {
  return value === null ? '' : (/\d[\d.,]*\s?(\D*)$/.exec(label)?.[1]?.trim() ?? '');
}

/** The trial as it will be. */
export function asCorrected(trial: TrialView, quantity: Correctable, line: Line): TrialView {
  const by = { ...trial.correction?.by, [quantity]: line };
  return { ...trial, ...correctedBy(measuredOf(trial), by) };
}

/** What makes the trials of the range again what was measured. */
export function asMeasuredAgain(
  trial: TrialView,
  trials: readonly TrialView[],
): readonly Command[] {
  const quantities = CORRECTABLE.filter((one) => trial.correction?.by[one] !== undefined);
  return quantities.map((quantity) => ({
    say: 'correct',
    trials: trials.map(addressOf),
    quantity,
    line: AS_MEASURED,
  }));
}

/** In the words of readings that are keyed in, as far as it is one of theirs. */
export function isTypedFault(fault: Fault): fault is Extract<Fault, KeyedFault> {
  return !['not-zero', 'not-above-zero', 'one-level'].includes(fault.kind);
}
