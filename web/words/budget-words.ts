/** What the bench page says of where the ± of a trial comes from. */
import type { BudgetCause, BudgetRow } from '#core/experiment/budget/row.ts';
import type { BudgetGap } from '#core/experiment/budget/trial-causes.ts';

export interface BudgetWords {
  /** What a trial's power opens when it is pressed. */
  readonly open: (trial: number) => string;
  readonly trial: (trial: number, result: string) => string;
  readonly heads: Readonly<Record<'cause' | 'of' | 'limits' | 'adds' | 'share' | 'whose', string>>;
  readonly cause: Readonly<Record<BudgetCause, string>>;
  readonly of: Readonly<Record<BudgetRow['channel'], string>>;
  readonly whose: Readonly<Record<'common' | 'alone', string>>;
  readonly most: (cause: string, percent: string) => string;
  readonly alone: (amount: string) => string;
  readonly common: (amount: string) => string;
  readonly steps: (count: string) => string;
  readonly rest: (count: number) => string;
  readonly gap: Readonly<Record<BudgetGap, string>>;
  /** Followed by the gaps, as a list. */
  readonly atLeast: (gaps: string) => string;
  readonly tell: string;
  readonly lopsided: (low: string, high: string) => string;
  /** Few readings, or one cause that outweighs all: the ± is not quite that of the draws. */
  readonly roughly: (low: string, high: string) => string;
  readonly stoodStill: string;
  readonly unknown: string;
  readonly correct: CorrectWords;
  readonly history: HistoryWords;
}

/** Of the states of a trial that were committed, one after the other. */
export interface HistoryWords {
  readonly title: string;
  readonly over: (time: string) => string;
  readonly asLogged: string;
  readonly asEnded: string;
}

/** Of readings that are put right, and levels that were others. */
export interface CorrectWords {
  readonly open: string;
  readonly hint: string;
  readonly what: string;
  readonly read: (trial: number, value: string) => string;
  readonly planned: (level: string, trials: number) => string;
  readonly truly: string;
  /** How well that is known; may be left empty. */
  readonly within: string;
  /** Followed by "2 %". */
  readonly known: (value: string) => string;
  readonly knownAs: Readonly<Record<'limits' | 'standard', string>>;
  readonly by: Readonly<Record<'factor' | 'amount', string>>;
  readonly trials: string;
  readonly to: string;
  readonly range: Readonly<Record<'first' | 'last', string>>;
  readonly fromNow: string;
  /** Followed by "2.54 V → 2.31 V". */
  readonly becomes: (trial: number, changes: string) => string;
  readonly together: (trials: number) => string;
  readonly submit: string;
  readonly asMeasured: string;
  /** Followed by what was measured. */
  readonly was: (measured: string) => string;
  readonly fault: Readonly<Record<'not-zero' | 'not-above-zero' | 'one-level', string>>;
}
