/** What can come of a zero that the board was asked for. */
export const ZERO_OUTCOMES = [
  'taken',
  /** Refused: what the channel reads is too far from nothing. */
  'range',
  'busy',
  /** Refused: the sketch does not know the request. */
  'unknown',
  /** Done, says the board, but the new zero was not announced. */
  'not-announced',
  'unanswered',
] as const;

export interface ZeroOutcome {
  readonly outcome: (typeof ZERO_OUTCOMES)[number];
  readonly message: string;
  /** Names and numbers of the message. */
  readonly about: readonly string[];
}
