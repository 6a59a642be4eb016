/** What can be wrong with a line; counted, shown, never thrown. */
export const FAULT_KINDS = [
  /** Not a line of either grammar. */
  'malformed',
  /** The checksum does not fit. */
  'checksum',
  /** Longer than the guard's limit. */
  'tooLong',
  /** More or fewer fields than columns. */
  'fieldCount',
  /** A field says nan, inf, ovf or nothing: that reading is missing. */
  'notFinite',
  /** A number that its quantity can't have. */
  'outOfRange',
  /** The sequence number jumped: lines were lost on the way. */
  'sequenceGap',
] as const;
export type FaultKind = (typeof FAULT_KINDS)[number];

/** The version of the Stillmark lines that this program reads and writes. */
export const GRAMMAR_VERSION = 1;

/** The most channels a board may have: their sample lines must fit the line limit. */
export const MOST_CHANNELS = 16;

export const BUTTONS = ['log', 'strike', 'next'] as const;
export const TROUBLES = ['missing', 'over', 'under', 'supply'] as const;
export const ANSWERS = ['done', 'range', 'busy', 'unknown'] as const;
export const REQUEST_NAMES = ['pace', 'zero', 'other'] as const;

/** What one Stillmark line says; firmware-protocol/README.md has the meaning of every field. */
export type Frame =
  | {
      readonly kind: 'opening';
      readonly cause: 'boot' | 'again';
      readonly timeUnit: 'us' | 'ms';
      readonly channelCount: number;
    }
  /** An opening or a beat in a version of the grammar that is not ours. */
  | { readonly kind: 'foreign'; readonly version: number }
  /** The four fields of an IEEE 488.2 identification. */
  | {
      readonly kind: 'identity';
      readonly maker: string;
      readonly model: string;
      readonly serial: string;
      readonly firmware: string;
    }
  | ChannelFrame
  | {
      readonly kind: 'pace';
      readonly period_us: number;
      readonly shortest_us: number;
      readonly longest_us: number;
    }
  | {
      readonly kind: 'sample';
      /** Modulo 2^16. */
      readonly sequence: number;
      /** Device time in the announced unit, modulo 2^32. */
      readonly time: number;
      /** Counts by channel; null: no reading. */
      readonly counts: readonly (number | null)[];
    }
  | {
      readonly kind: 'button';
      /** Of the press, modulo 2^16: the line may come more than once. */
      readonly number: number;
      readonly time: number;
      readonly button: (typeof BUTTONS)[number];
    }
  | { readonly kind: 'beat'; readonly time: number }
  /** channel 0: the board itself. */
  | {
      readonly kind: 'trouble';
      readonly channel: number;
      readonly trouble: (typeof TROUBLES)[number];
    }
  | {
      readonly kind: 'answer';
      readonly request: (typeof REQUEST_NAMES)[number];
      readonly result: (typeof ANSWERS)[number];
    };

/** value = gain · scale · (count − zero) + offset, in `unit`. */
export interface ChannelFrame {
  readonly kind: 'channel';
  /** 1 for the first field after the time. */
  readonly number: number;
  readonly quantity: string;
  readonly unit: string;
  readonly scale: number;
  readonly zero: number;
  readonly gain: number;
  readonly offset: number;
  /** Standard uncertainty of the gain; null when the board does not know it. */
  readonly gainUncertainty: number | null;
  /** Standard uncertainty of the offset, in `unit`; null when the board does not know it. */
  readonly offsetUncertainty: number | null;
}

/** A line that is no frame. */
export interface Fault {
  readonly kind: 'fault';
  readonly fault: Extract<FaultKind, 'malformed' | 'checksum'>;
}

/** What the host may ask of a board that has announced this grammar. */
export type Request =
  /** `*IDN?`: announce yourself. */
  | { readonly kind: 'identify' }
  /** A sample every so many microseconds. */
  | { readonly kind: 'pace'; readonly period_us: number }
  /** Take what the channel reads now as zero. */
  | { readonly kind: 'zero'; readonly channel: number };
