/** What the bench page says round its band: top line, link, curves, list, notices, naming. */
import type { StrikeReason } from '#core/experiment/strike-reasons.ts';
import type { ColumnName } from '#core/reading/unnamed.ts';

export interface TopWords {
  readonly header: {
    readonly freeze: string;
    readonly frozen: string;
    /** What stands on, or is said of, the widest key. */
    readonly spaceKey: string;
    readonly soundOn: string;
    readonly soundOff: string;
    readonly toLight: string;
    readonly toDark: string;
    readonly lettersOn: string;
    readonly lettersOff: string;
    readonly wiring: string;
    readonly report: string;
    readonly why: string;
    readonly theBoard: string;
    readonly replayed: string;
    readonly eachLogged: string;
  };
  readonly link: {
    readonly notConnected: string;
    readonly noNews: string;
    readonly noBoard: string;
    readonly connected: string;
    readonly meters: string;
    readonly simulated: string;
    readonly ended: string;
    readonly opening: string;
    readonly silent: string;
    readonly unplugged: string;
    readonly notOpened: string;
    readonly rate: (rate: string) => string;
    readonly badLines: (count: number) => string;
    readonly lost: (times: number) => string;
    readonly clockOff: (percent: string) => string;
  };
  readonly field: {
    readonly strips: string;
    readonly lastMinute: string;
    readonly frozenAt: (time: string) => string;
    /** Before the formats in which a picture is saved. */
    readonly keep: string;
    readonly save: (format: string, what: string) => string;
    readonly minuteAgo: string;
    readonly now: string;
    readonly trial: (id: number) => string;
  };
  readonly list: {
    readonly trials: string;
    readonly trialsOf: (session: string) => string;
    readonly empty: string;
    readonly trialLogged: string;
    readonly nextTrial: string;
    readonly struck: string;
    readonly struckFor: (reason: string) => string;
    /** Why the program struck it itself. */
    readonly strikeReason: Readonly<Record<StrikeReason, string>>;
    readonly simulated: string;
    readonly keyed: (readings: number) => string;
    readonly imported: string;
    readonly putRight: string;
    readonly cutOffTooSoon: string;
    readonly cutOff: string;
    readonly didNotTurn: string;
    /** Logged because somebody wanted it: an average over its swings, or its last seconds. */
    readonly averaged: string;
    readonly loggedNow: string;
    readonly goesOn: string;
    readonly whyStruck: (id: number) => string;
    readonly why: string;
    readonly noteOn: (id: number) => string;
    readonly note: string;
    readonly keep: string;
    readonly cancel: string;
  };
  readonly notice: {
    readonly nothingKept: string;
    readonly understood: string;
    readonly offered: (board: string) => string;
    readonly useIt: string;
  };
  readonly naming: {
    readonly heading: string;
    readonly number: (place: number) => string;
    readonly readSo: string;
    readonly hint: string;
    readonly column: Readonly<Record<ColumnName, string>>;
  };
}
