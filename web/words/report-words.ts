/** What only the report says. Every sentence also holds for a statistician. */
import type { Improvement } from '#core/experiment/analysis/improvements.ts';
import type { OpenQuestion } from '#core/experiment/analysis/open-questions.ts';
import type { Instrument } from '#core/instrument/instrument.ts';
import type { Trial } from '#core/experiment/trial.ts';

export type SectionName =
  | 'setUp'
  | 'method'
  | 'trials'
  | 'plots'
  | 'uncertainty'
  | 'wind'
  | 'answer'
  | 'comparison'
  | 'open'
  | 'better'
  | 'safety'
  | 'own';

/** How voltage or current is read; `unknown`: nobody has said. */
export type MeansKind = NonNullable<Instrument['voltage' | 'current']>['kind'] | 'unknown';

/** The tests of the tables. */
export type TestName = 'anova' | 'welch' | 'blocked' | 'rounds' | 'first' | 'second' | 'interaction';

export interface ReportWords {
  readonly title: string;
  readonly toBench: string;
  readonly print: string;
  readonly version: Readonly<Record<'whole' | 'student', string>>;
  readonly name: string;
  readonly date: string;
  readonly waiting: string;
  readonly noPlan: string;
  readonly section: Readonly<Record<SectionName, string>>;
  readonly setUp: SetUpWords;
  readonly method: MethodWords;
  readonly trials: {
    readonly heads: { readonly time: string; readonly tips: string };
    readonly note: string;
    /** Where what the instruments add is told. */
    readonly below: string;
  };
  readonly plots: PlotWords;
  readonly uncertainty: {
    readonly of: (trial: number, label: string) => string;
    readonly ranking: string;
  };
  readonly answer: { readonly everyLook: string };
  readonly comparison: ComparisonWords;
  readonly open: Readonly<Record<OpenQuestion, string>>;
  readonly better: BetterWords;
  readonly safety: readonly string[];
  readonly own: OwnWords;
  readonly madeBy: (version: string) => string;
}

interface SetUpWords {
  readonly session: string;
  readonly changed: string;
  readonly constant: string;
  readonly nothingConstant: string;
  readonly measured: string;
  readonly origin: Readonly<Record<Trial['origin'], string>>;
  readonly means: Readonly<Record<MeansKind, string>>;
}

interface MethodWords {
  readonly settled: string;
  readonly keyed: string;
  readonly imported: string;
  readonly rounds: (count: number) => string;
  readonly repeats: (count: number) => string;
  readonly random: (seed: number) => string;
  readonly listed: string;
  readonly groups: (names: string) => string;
  readonly reference: (label: string, every: number) => string;
  readonly struck: (count: number) => string;
  readonly cut: (count: number) => string;
  readonly still: (count: number) => string;
  /** Before the levels in the order in which they were set. */
  readonly inOrder: string;
}

interface PlotWords {
  readonly wind: string;
  readonly residuals: string;
  readonly order: string;
  readonly byWind: string;
  readonly byOrder: string;
  readonly answerCaption: string;
  readonly answerOnceCaption: string;
  readonly answerStudentCaption: string;
  readonly curveCaption: string;
  /** Of the curve where the load is what is varied. */
  readonly sourceCaption: string;
  readonly mostCaption: string;
  readonly windCaption: string;
  /** Of the power curve, by the width of its bins and the density that it is brought to. */
  readonly binCaption: (width: string, density: string) => string;
  readonly share: string;
  readonly shareCaption: string;
  /** What the two lines at the ring of a bin are. */
  readonly linesCaption: string;
  readonly residualCaption: string;
  readonly orderCaption: string;
  readonly fell: (percent: string, odds: string) => string;
  readonly rose: (percent: string, odds: string) => string;
  readonly noDrift: string;
  readonly driftUnknown: string;
  readonly scatter: (percent: string) => string;
  readonly scatterAlike: string;
  readonly scatterUnlike: string;
}

type ComparisonHead =
  | 'level'
  | 'settings'
  | 'mean'
  | 'limits'
  | 'pair'
  | 'difference'
  | 'said'
  | 'question'
  | 'test'
  | 'chance';

interface ComparisonWords {
  readonly heads: Readonly<Record<ComparisonHead, string>>;
  readonly method: Readonly<Record<'blocked' | 'gamesHowell' | 'tukey', string>>;
  readonly levelsNote: string;
  readonly readingNote: string;
  /** Of a pair whose first level is the higher one. */
  readonly more: string;
  readonly notApart: string;
  readonly pairsNote: string;
  readonly onceNote: string;
  /** The levels in one wind, where the wind was not the same. */
  readonly sameWind: {
    /** @param exponent of the wind that power went with @param limits of it, 95 % */
    readonly lead: (exponent: string, limits: string) => string;
    readonly measured: string;
    readonly at: (wind: string) => string;
    /** @param chance how often levels that are alike would differ so */
    readonly note: (chance: string) => string;
  };
  readonly onceEach: string;
  readonly question: Readonly<Record<TestName, (factor: string) => string>>;
  readonly test: Readonly<Record<'anova' | 'welch' | 'blocked' | 'twoFactor', string>>;
  /** "3 of 1000 experiments": how often chance alone does as much; short in a table. */
  readonly odds: (count: number, of: number) => string;
  readonly oddsShort: (count: number, of: number) => string;
  readonly lessThan: (odds: string) => string;
  readonly isSeen: string;
  readonly notSeen: string;
}

type BetterKind = Improvement['kind'];
/** What each is told: shares as per cent, counts as numbers. */
interface BetterWords {
  readonly nothing: string;
  readonly said: {
    readonly [Kind in BetterKind]: (about: BetterAbout) => string;
  };
}
export interface BetterAbout {
  readonly percent: string;
  readonly count: number;
  readonly withoutReason: number;
  /** Of an uncertainty budget, in words. */
  readonly cause: string;
  /** Power fell. */
  readonly isFall: boolean;
}

/** What students fill in. */
interface OwnWords {
  readonly expected: string;
  readonly means: string;
  readonly highest: string;
  readonly sure: string;
  readonly why: string;
  readonly better: string;
}
