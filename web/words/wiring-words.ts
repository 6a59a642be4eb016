/** What the wiring page says. Numbers come as the language writes them, with their units. */
import type { ReadingFault } from '#core/instrument/designs.ts';
import type { FieldFault, FieldName } from '#core/instrument/fields.ts';

/** What there is to work out on the page; the address names one. */
export const WIRING_KINDS = ['divider', 'shunt', 'monitor', 'meter'] as const;
export type WiringKind = (typeof WIRING_KINDS)[number];

export interface WiringWords {
  /** Of the page, for the browser. */
  readonly page: string;
  readonly heading: string;
  readonly toBench: string;
  readonly toWorkOut: string;
  readonly kind: Readonly<Record<WiringKind, string>>;
  readonly result: string;
  readonly nothingYet: string;
  readonly cautions: string;
  readonly field: Readonly<Record<FieldName, string>>;
  /** Units that are words. */
  readonly unit: Readonly<Record<'bits' | 'counts', string>>;
  readonly fault: Readonly<Record<FieldFault, (about: FaultAbout) => string>>;
  readonly form: FormWords;
  readonly circuit: CircuitWords;
  readonly offer: OfferWords;
  readonly causes: CausesWords;
  readonly sketch: SketchWords;
  readonly use: UseWords;
  readonly said: DesignWords;
  readonly compared: ComparedWords;
}

/** What may be said of a field that does not fit. */
export interface FaultAbout {
  readonly label: string;
  readonly typed: string;
  readonly instance: string;
  readonly least: string;
  /** With the unit. */
  readonly most: string;
}

export interface FormWords {
  readonly converter: string;
  readonly board: string;
  readonly boards: Readonly<Record<'of8bit' | 'of32bit', string>>;
  readonly boardHint: string;
  readonly resistors: string;
  readonly rig: string;
  readonly rigHint: string;
  readonly shunt: string;
  readonly shuntHint: string;
  readonly monitor: string;
  readonly range: string;
}

/** Words in the drawings are short; a label says the whole drawing to those who hear it. */
export interface CircuitWords {
  readonly ground: string;
  readonly upper: string;
  readonly lower: string;
  readonly shunt: string;
  readonly monitor: string;
  readonly divider: (upper: string, lower: string) => string;
  readonly amplified: (shunt: string, gain: string) => string;
  readonly monitored: (shunt: string) => string;
}

export interface OfferWords {
  readonly resistors: (largest: string) => string;
  readonly shunt: (largest: string) => string;
  readonly over: (upper: string, lower: string) => string;
  readonly upTo: (series: string, parts: string, range: string) => string;
  readonly take: string;
}

export interface CausesWords {
  readonly caption: string;
  readonly part: string;
  readonly limits: string;
  readonly adds: string;
  readonly together: string;
  /** The cause is the same in voltage and current. */
  readonly shared: (cause: string) => string;
}

export interface SketchWords {
  readonly title: string;
  readonly copy: string;
  readonly copied: string;
  readonly marked: string;
}

export interface UseWords {
  readonly heading: string;
  readonly tell: string;
  readonly zeroed: string;
  readonly kept: string;
  readonly partsHint: string;
  readonly comparedHint: string;
}

/** Of a design: its sentence, facts and warnings. */
export interface DesignWords {
  readonly atMost: string;
  readonly reads: (range: string, step: string, share: string) => string;
  readonly noTolerance: string;
  readonly mostFrom: (cause: string, isShared: boolean) => string;
  readonly zero: (built: string, zeroed: string) => string;
  readonly pinSees: (resistance: string) => string;
  readonly load: (voltage: string, current: string, lowered: string, heat: string) => string;
  readonly clamps: (current: string) => string;
  readonly shunt: (current: string, voltage: string, heat: string, rating: string) => string;
  readonly floor: (current: string) => string;
  readonly busVoltage: (limit: string, step: string, share: string) => string;
  readonly monitorPins: (limit: string) => string;
  readonly power: (share: string) => string;
  /** The end of the range, then what is expected; a remedy follows. */
  readonly tooSmall: (end: string, expected: string) => string;
  readonly remedy: Readonly<Record<'divider' | 'shunt' | 'monitor', string>>;
  readonly pinSeesTooMuch: (resistance: string) => string;
  readonly clampsTooMuch: (current: string) => string;
}

/** The check against a multimeter. */
export interface ComparedWords {
  readonly measured: string;
  readonly quantity: Readonly<Record<'voltage' | 'current', string>>;
  readonly readings: string;
  readonly heads: Readonly<Record<'meter' | 'page' | 'leftOver', string>>;
  readonly cell: Readonly<Record<'meter' | 'page', (pair: number, unit: string) => string>>;
  readonly onePairMore: string;
  readonly accuracy: string;
  readonly accuracyHint: string;
  readonly present: string;
  readonly fault: Readonly<Record<'meter' | 'page', Readonly<Record<ReadingFault, string>>>>;
  readonly tooFew: string;
  readonly noLine: string;
  readonly gain: string;
  readonly scattered: (times: string) => string;
  readonly found: (gain: string, share: string, offset: string, uncertainty: string) => string;
  readonly meterLimit: (reading: string, limit: string) => string;
  readonly twoPairs: string;
  readonly holdsFor: string;
}
