/** What the page says of why a level gives the most. */
import type { Assumed, FittedPart } from '#core/experiment/why/described-rig.ts';
import type { COMPARED, STARTS } from '#core/experiment/why/findings.ts';
import type { WhatIf } from '#core/experiment/why/what-if.ts';
import type { NO_WHY } from '#core/experiment/why/why.ts';
import type { Suspect } from '#core/rotor/expected/suspects.ts';

/** "3.4": how many times as much. */
type Times = string;

interface ComparedWords {
  readonly best: string;
  readonly other: string;
  readonly speed: Times;
  readonly torque: Times;
}

interface GlideWords {
  readonly best: string;
  readonly other: string;
  readonly bestGlide: Times;
  readonly otherGlide: Times;
}

interface LoadWords {
  readonly load: string;
  readonly winding: string;
  /** Power as it is, and as it would be. */
  readonly now: string;
  readonly then: string;
}

interface LengthWords {
  readonly length: string;
  readonly now: string;
  readonly then: string;
}

export interface WhyWords {
  readonly title: string;
  readonly toBench: string;
  readonly waiting: string;
  readonly working: string;
  readonly failed: {
    readonly what: string;
    readonly how: Readonly<Record<'not-loaded' | 'stumbled', string>>;
    /** That nothing recorded is touched by it. */
    readonly kept: string;
    readonly again: string;
  };
  readonly none: Readonly<Record<(typeof NO_WHY)[number], string>>;
  readonly section: Readonly<Record<'plot' | 'causes' | 'words' | 'flow' | 'limits', string>>;
  readonly model: string;
  readonly measured: string;
  readonly caption: string;
  readonly notTried: string;
  readonly didNotTurn: string;
  readonly far: Readonly<Record<'less' | 'more', (levels: string) => string>>;
  readonly isFar: Readonly<Record<'less' | 'more', string>>;
  readonly allNear: string;
  /** How many times as fast as the wind the tips ran, and should. */
  readonly tips: (level: string, measured: string, model: string) => string;
  readonly nothingMeasured: string;
  readonly lookFirst: string;
  readonly noCause: string;
  /** That a cause is a guess. */
  readonly guess: string;
  /** @param change a factor, or degrees */
  readonly cause: Readonly<Record<Exclude<Suspect, 'blade angle'>, (change: string) => string>>;
  readonly blades: Readonly<Record<'flatter' | 'steeper', (degrees: string) => string>>;
  readonly agree: (level: string) => string;
  /** The same where others can't be told from it. */
  readonly agreeSoFar: (level: string, others: string) => string;
  /** Of 100 guesses. */
  readonly sure: (level: string, guesses: string) => string;
  /** Follows on a sentence that so many of 100 guesses say too. */
  readonly soInGuesses: (guesses: string) => string;
  readonly perhaps: (measured: string, model: string) => string;
  readonly disagree: (measured: string, model: string) => string;
  readonly bestFar: (level: string) => string;
  readonly nothingStarts: string;
  readonly expects: (level: string) => string;
  readonly compared: Readonly<Record<(typeof COMPARED)[number], (of: ComparedWords) => string>>;
  readonly glide: (of: GlideWords) => string;
  readonly standing: (of: { best: string; other: string; torque: Times }) => string;
  readonly notLongest: (of: { best: string; longest: string; now: string; then: string }) => string;
  readonly beyondJetAt: (levels: string) => string;
  readonly along: (best: string, other: string) => string;
  readonly starts: Readonly<Record<(typeof STARTS)[number], (levels: string) => string>>;
  readonly turnedAnyway: (levels: string) => string;
  readonly stoodAnyway: (levels: string) => string;
  readonly load: Readonly<Record<WhatIf['verdict'], (of: LoadWords) => string>>;
  readonly length: Readonly<Record<WhatIf['verdict'], (of: LengthWords) => string>>;
  readonly beyondJet: string;
  /** Of 100 parts. */
  readonly shares: (load: string, winding: string, friction: string) => string;
  readonly flow: {
    readonly at: (level: string) => string;
    readonly row: Readonly<
      Record<'wind' | 'never' | 'left' | 'rotor' | 'friction' | 'winding' | 'load' | 'measured', string>
    >;
    readonly larger: string;
    readonly band: (low: string, high: string) => string;
    readonly ofWind: (percent: string) => string;
    readonly apart: string;
  };
  readonly assumed: Readonly<Record<Assumed, string>>;
  /** Followed by them, as a list. */
  readonly notSaid: (what: string) => string;
  readonly fitted: Readonly<Record<FittedPart, string>>;
  /** Followed by them, as a list. */
  readonly fittedTo: (what: string) => string;
  readonly limits: readonly string[];
}
