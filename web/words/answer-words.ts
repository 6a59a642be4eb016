/** What the comparison of levels says. Every sentence also holds for a statistician. */
import type { NO_MATCH } from '#core/experiment/answer/matched-load.ts';

export interface CreptAbout {
  /** "11 %" */
  readonly percent: string;
  readonly isFall: boolean;
  readonly isWithinRounds: boolean;
}

export interface AnswerWords {
  /** One level is best. `more`: "about 30 % more power", `next`: the level that comes next. */
  readonly best: (label: string, more: string, next: string) => string;
  readonly percentMore: (percent: string) => string;
  readonly timesAsMuch: (times: string) => string;
  /** It can be told apart from some, from others not yet. */
  readonly tied: (label: string, others: string) => string;
  /** Too many to name. */
  readonly others: (count: number) => string;
  readonly triedOnce: (label: string) => string;
  /** What trying each level once leaves open. */
  readonly triedOnceSmall: string;
  /** Why trials in the same order each time say less, and what to do. */
  readonly sameOrder: string;
  /** What power did meanwhile, that no trial was corrected for it, and what that means. */
  readonly crept: (about: CreptAbout) => string;
  readonly sameReadings: string;
  readonly nothingTurned: string;
  readonly didNotTurn: (labels: string) => string;
  readonly notAlwaysTurned: (labels: string) => string;
  /** Where between the levels the most power lies. */
  readonly mostBetween: (low: string, high: string) => string;
  readonly mostAtEdge: (label: string) => string;
  /** Where the load is varied: what the trials' voltages and currents say together. */
  readonly load: {
    /** "38 ± 2 Ω" */
    readonly match: (resistance: string) => string;
    /** The same at length: what it rests on, and what it is not. */
    readonly source: (emf: string, resistance: string) => string;
    readonly windUnread: string;
    /** Why the ohms can't be told. */
    readonly none: Readonly<Record<(typeof NO_MATCH)[number], string>>;
  };
  /** What to do next: the levels with how often, and about how many trials it takes in all. */
  readonly run: (levels: string) => string;
  readonly levelTimes: (label: string, times: number) => string;
  readonly itTakes: (trials: number) => string;
  readonly itTakesMany: (many: number) => string;
  readonly settled: string;
  readonly tie: (labels: string) => string;
  readonly doThese: string;
}

/** What trials say before levels are compared. */
export interface SentenceWords {
  readonly nothingYet: string;
  readonly nothingYetSmall: string;
  /** Something is logged, but nothing that counts; and why the newest does not. */
  readonly noneCounts: string;
  readonly whyNot: Readonly<Record<'struck' | 'cutOff' | 'noPower', string>>;
  readonly one: (result: string) => string;
  readonly oneSmall: string;
  readonly allAt: (count: number, value: string) => string;
  readonly range: (count: number, low: string, high: string) => string;
  readonly struck: (count: number) => string;
  readonly noPlan: string;
  readonly noneOfPlan: string;
  /** With a plan: only one level has been tried. */
  readonly oneLevel: (label: string) => string;
  /** Of several that were tried. */
  readonly onlyTurned: (label: string) => string;
  readonly covered: string;
}
