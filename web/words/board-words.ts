/** What the bench page says of the board: what it announced, its pace, a zero. */
import { quantityNamed, type QuantityName } from '#protocol/quantity.ts';

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

/** A quantity as announced; as the board spells it where it is none of ours. */
export function quantityIn(names: BoardWords['quantity'], announced: string): string {
  const name = quantityNamed(announced);
  return name === null ? announced : names[name];
}

/** Quantities and amounts in turn, as one list: "voltage 2300 mV, current 110 mA". */
export function readingsIn(names: BoardWords['quantity'], readings: readonly string[]): string {
  return readings
    .flatMap((quantity, i) => (i % 2 === 0 ? [`${quantityIn(names, quantity)} ${readings[i + 1] ?? ''}`] : []))
    .join(', ');
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
