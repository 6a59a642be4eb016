/** What the bench page says of figures that are fitted to readings of the rig. */
import type { NoReadings } from '#core/experiment/readings-of-trials.ts';
import type { GeneratorGap } from '#core/rotor/fitting/generator-readings.ts';
import type { LampGap } from '#core/rotor/fitting/lamp-readings.ts';
import type { GeneratorReadings } from '#core/rotor/fitting/generator-readings.ts';
import type { Column, Part } from '../fitting/fit-form.ts';

export interface FitWords {
  readonly open: string;
  readonly heading: Readonly<Record<Part, string>>;
  /** How it is read, with what to mind. */
  readonly how: Readonly<Record<Part, string>>;
  readonly speed: string;
  readonly speeds: Readonly<Record<GeneratorReadings['speed'], string>>;
  readonly column: Readonly<Record<Column, string>>;
  readonly cell: (row: number, column: string) => string;
  readonly take: string;
  readonly taken: (trials: number, passedOver: number) => string;
  readonly none: Readonly<Record<NoReadings, string>>;
  /** Figures with their ±. */
  readonly emf: (volts: string) => string;
  readonly winding: (ohms: string) => string;
  readonly windingAtMost: (ohms: string) => string;
  readonly unloaded: (volts: string) => string;
  readonly exponent: (power: string) => string;
  readonly lampAt: (volts: string, amperes: string) => string;
  readonly resistor: string;
  readonly leftOut: (readings: number) => string;
  readonly from: (readings: number) => string;
  /** How far the readings lie off the line, at most. */
  readonly scatter: (most: string) => string;
  readonly gap: Readonly<Record<GeneratorGap | LampGap, string>>;
  readonly needed: string;
  readonly between: (low: string, high: string) => string;
  readonly use: string;
  readonly leave: string;
  readonly inUse: string;
  readonly otherInUse: string;
  readonly clear: string;
  readonly axis: Readonly<Record<'behind' | 'speed' | 'volts' | 'amps', string>>;
  readonly picture: string;
}
