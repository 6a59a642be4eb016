/** What the bench page says of the wind's power and what became of it, and of rotor and air. */
import type { CoefficientCause } from '#core/rotor/wind/power-coefficient.ts';
import type {
  COEFFICIENT_GAPS,
  NO_COEFFICIENT,
} from '#core/experiment/budget/coefficient-of-trial.ts';
import type { GUSTS_FROM } from '#core/experiment/budget/gusts-of-trial.ts';
import type { NoRippleSpeed } from '#core/experiment/speed/ripple-speed.ts';
import type { TrialSpeed } from '#core/experiment/speed/trial-speed.ts';
import type { RotorFieldName } from '../budget/rotor-form.ts';

export interface WindWords {
  /** "3.1 ± 0.6 % of the wind’s power" */
  readonly share: (percent: string) => string;
  readonly offered: (power: string) => string;
  readonly betz: (percent: string) => string;
  readonly beyond: (percent: string) => string;
  /** What a perfect rotor would reach at this speed. */
  readonly ideal: (percent: string) => string;
  readonly most: (cause: string, percent: string) => string;
  readonly cause: Readonly<Record<CoefficientCause, string>>;
  /** What the gusts' part rests on. */
  readonly gustsFrom: Readonly<Record<(typeof GUSTS_FROM)[number], string>>;
  readonly gap: Readonly<Record<(typeof COEFFICIENT_GAPS)[number], string>>;
  readonly why: Readonly<Record<(typeof NO_COEFFICIENT)[number], string>>;
  /** The names of the bar's end, and of the mark in it. */
  readonly scale: {
    readonly all: string;
    readonly betz: (percent: string) => string;
  };
  /** "1740 ± 20" turns a minute. */
  readonly turned: Readonly<Record<TrialSpeed['by'], (turns: string) => string>>;
  /** How many times as fast as the wind. */
  readonly tips: (times: string) => string;
  /** Why the ripple tells no speed. @param rate readings a second */
  readonly noRipple: Readonly<
    Record<Exclude<NoRippleSpeed, 'not heard'>, (rate: string) => string>
  >;
  readonly describe: string;
  readonly field: Readonly<Record<RotorFieldName, string>>;
  readonly hint: {
    readonly hub: string;
    readonly lengthVaried: string;
    readonly altitude: string;
    readonly humidity: string;
    /** The board has a channel for it, which counts. */
    readonly heard: (value: string) => string;
    /** Followed by where to hold the anemometer: "82, 141, 183 mm". */
    readonly rings: (radii: string) => string;
    readonly ringsFirst: string;
    readonly wind: string;
    readonly emf: string;
    readonly ripples: string;
    readonly friction: string;
    readonly load: string;
    /** Fitted to readings, which counts. */
    readonly fitted: (value: string) => string;
    readonly fittedLamp: string;
  };
  readonly anemometer: Readonly<Record<'unknown' | 'vane' | 'cups', string>>;
  readonly problem: {
    readonly needed: string;
    readonly number: string;
    readonly between: (low: string, high: string) => string;
    readonly hub: string;
    readonly rings: string;
    readonly together: string;
    readonly whole: string;
    readonly disc: string;
    readonly oneLoad: string;
    readonly oneAir: string;
    readonly jet: string;
  };
  /** Above what only the reasons need. */
  readonly forWhy: string;
  readonly use: string;
}
