/**
 * What the program itself says (notices, refusals, why saving has stopped, why a port does not
 * open), in the page's language. The program speaks English: a page that speaks English shows its
 * sentences as they come. Each takes the names and numbers that come with the sentence, in their
 * order; the codes are those of docs/errors.md.
 */
import type { ZeroOutcome } from '#core/asking/zero-outcome.ts';
import type { PortState } from '#core/link.ts';

/** A sentence; one that takes more than the program gave can't be said. */
export type Say = (...about: string[]) => string;

type Says<Code extends string> = Readonly<Record<Code, Say>>;

export interface ProgramWords {
  readonly notice: Says<NoticeCode>;
  readonly refusal: Says<RefusalCode>;
  readonly store: Says<StoreCode>;
  readonly port: Says<Extract<PortState, { phase: 'refused' }>['code']>;
  /** What is played could not be read to its end; takes why, as the system says it. */
  readonly endedEarly: (reason: string) => string;
  /** The board went away seconds after it was plugged in. */
  readonly goneAtOnce: string;
  /** What came of a zero; takes the quantity's name, the counts, what they are worth, and before. */
  readonly zero: Says<ZeroOutcome['outcome']>;
}

export type NoticeCode =
  | 'column-ignored'
  | 'column-unit'
  | 'column-twice'
  | 'pulses-unset'
  | 'pulses-ambiguous'
  | 'channel-unknown'
  | 'channel-unit'
  | 'channel-scale'
  | 'no-announcement'
  | 'samples-misfit'
  | 'board-missing'
  | 'board-over'
  | 'board-under'
  | 'board-supply'
  | 'board-refused'
  | 'board-unanswered'
  | 'board-version'
  | 'button-press'
  | 'header-repeated'
  | 'columns-misfit'
  | 'decimal-comma'
  | 'computer-slept'
  | 'orphan-action'
  | 'orphan-zero'
  | 'network-folder'
  | 'data-restored'
  | 'data-not-copied'
  | 'orphan-command'
  | 'no-time-column'
  | 'time-back'
  | 'row-damaged'
  | 'upkeep-failed';

/** Those that an operator may meet at the page; those that phones meet too are in `network-words.ts`. */
export type RefusalCode =
  | 'viewers-only'
  | 'trial-unknown'
  | 'board-unknown'
  | 'session-unknown'
  | 'session-refused'
  | 'replay-only'
  | 'columns-refused'
  | 'command-refused'
  | 'zero-refused'
  | 'zero-doubtful'
  | 'passes-full'
  | 'saving-stopped'
  | 'too-many-requests'
  | 'body-too-large'
  | 'request-too-slow'
  | 'internal'
  | 'no-answer'
  | 'answer-unreadable'
  | 'file-unanswered'
  | 'plan-refused'
  | 'door-refused'
  | 'file-refused'
  | 'bad-field'
  | 'bad-json'
  | 'bad-request'
  | 'json-only'
  | 'not-found'
  | 'method-refused'
  | 'head-too-large'
  | 'page-not-built';

export type StoreCode =
  | 'disk-full'
  | 'file-busy'
  | 'folder-unwritable'
  | 'data-folder-unusable'
  | 'data-folder-in-use'
  | 'data-damaged';
