/** What the bench page says of the board: what it announced, its pace, a zero. */
import type { QuantityName } from '#protocol/quantity.ts';

export interface BoardWords {
  /** Within a sentence. */
  readonly quantity: Readonly<Record<QuantityName, string>>;
  readonly notKnown: string;
  /** What there is to say of a board that has not announced anything. */
  readonly played: string;
  readonly plain: string;
  readonly notYet: string;
  readonly namedHere: (names: string) => string;
  readonly notUsed: string;
  readonly nameAnew: string;
  readonly facts: Readonly<Record<'board' | 'serial' | 'firmware' | 'rate', string>>;
  readonly madeBy: (model: string, maker: string) => string;
  readonly asBuilt: string;
  readonly wantedRate: string;
  readonly set: string;
  readonly limits: (low: string, high: string) => string;
  readonly noChannels: string;
  readonly heads: Readonly<Record<'channel' | 'count' | 'zero' | 'gain' | 'offset', string>>;
  readonly actions: string;
  readonly notRead: string;
  readonly zero: ZeroWords;
}

export interface ZeroWords {
  readonly take: string;
  readonly takeOf: (quantity: string) => string;
  readonly isPending: string;
  readonly byMistake: string;
  readonly atRest: string;
  readonly readsNow: (quantity: string, value: string) => string;
  readonly becomesZero: string;
  readonly takeIt: string;
  readonly takeItStill: string;
  readonly cancel: string;
}
