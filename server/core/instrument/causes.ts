/**
 * From the instruments to the causes of error of a pair of readings, V and I: independent of each
 * other, each with what it does to both channels. A part that serves both is one cause, so that
 * what voltage and current have in common is common (JCGM 100:2008 (GUM), F.1.2.3).
 */
import type { WiredChannel } from './channel.ts';
import { ZERO_LIMIT_STEPS } from './converter.ts';
import { dividerChannel } from './divider.ts';
import type { CurrentMeans, Instrument, Stated, VoltageMeans } from './instrument.ts';
import type { Meter } from './meter.ts';
import { monitorCurrentChannel, monitorVoltageChannel } from './monitor.ts';
import { shuntChannel } from './shunt.ts';
import { CAUSE_NAMES, ofStep, rectangular, type GainCause, type OffsetCause } from './tolerance.ts';

export const ERROR_CAUSES = [
  ...CAUSE_NAMES,
  /** A zero was taken, to the nearest step. */
  'zero as taken',
  /** A reading is known to the nearest step: anew in every trial. */
  'step of the reading',
  'gain as stated',
  'zero as stated',
  /** ±(part of reading + counts), as one. */
  'accuracy of the meter',
  /** How well is known what readings were corrected by. */
  'correction',
] as const;
export type ErrorCause = (typeof ERROR_CAUSES)[number];

export type Quantity = 'voltage' | 'current';

/** What one unit of a cause does to a reading: value = reading·(1 + gain) + offset. */
export interface Effect {
  readonly gain: number;
  /** V or A. */
  readonly offset: number;
}

export interface Cause {
  readonly name: ErrorCause;
  readonly channel: Quantity | 'both';
  /** Of the uncertainty: part of a value, V or A, steps of the converter, limits of a meter. */
  readonly unit: 'ratio' | 'V' | 'A' | 'step' | 'limit';
  readonly standardUncertainty: number;
  readonly distribution: 'rectangular' | 'normal';
  /** The same in all trials; else anew in each. */
  readonly isCommon: boolean;
  /** What tells that it is the same, where that is more than its name on one rig. */
  readonly commonAs?: string;
  readonly voltage: Effect;
  readonly current: Effect;
}

/** Of what nothing is known, so that a budget without it is a lower bound. */
export const GAPS = ['voltage', 'current', 'zero of the voltage', 'zero of the current'] as const;
export type Gap = (typeof GAPS)[number];

export interface Causes {
  readonly causes: readonly Cause[];
  readonly gaps: readonly Gap[];
}

/** One instrument serves all trials of a session: it is worked out once. */
const WORKED_OUT = new WeakMap<Instrument, Causes>();

export function causesOf(instrument: Instrument): Causes {
  const known = WORKED_OUT.get(instrument);
  if (known !== undefined) return known;
  const { voltage, current } = instrument;
  const own = [...ownCauses('voltage', voltage), ...ownCauses('current', current)];
  const causes = [...own.reduce(merge, new Map<string, Cause>()).values()];
  const gaps = [...gapsOf('voltage', voltage), ...gapsOf('current', current)];
  WORKED_OUT.set(instrument, { causes, gaps });
  return { causes, gaps };
}

function gapsOf(quantity: Quantity, means: VoltageMeans | CurrentMeans | null): Gap[] {
  if (means === null) return [quantity];
  const hasNoZero = means.kind === 'stated' && means.offsetUncertainty === null;
  return hasNoZero ? [`zero of the ${quantity}`] : [];
}

/** What both channels have becomes one cause with both effects. */
function merge(known: Map<string, Cause>, cause: Cause): Map<string, Cause> {
  const key = cause.channel === 'both' ? cause.name : `${cause.name} ${cause.channel}`;
  const other = known.get(key);
  if (other === undefined) return known.set(key, cause);
  const current = cause.current;
  return known.set(key, { ...other, current });
}

function ownCauses(quantity: Quantity, means: VoltageMeans | CurrentMeans | null): Cause[] {
  if (means === null) return [];
  switch (means.kind) {
    case 'stated':
      return statedCauses(quantity, means);
    case 'meter':
      return meterCauses(quantity, means.meter);
    default:
      return wiredCauses(wiredChannel(quantity, means), means.isZeroed);
  }
}

type Wired = Extract<VoltageMeans | CurrentMeans, { isZeroed: boolean }>;

export function wiredChannel(quantity: Quantity, means: Wired): WiredChannel {
  switch (means.kind) {
    case 'divider':
      return dividerChannel(means.divider);
    case 'shunt':
      return shuntChannel(means.shunt);
    case 'monitor':
      return quantity === 'voltage'
        ? monitorVoltageChannel(means.monitor)
        : monitorCurrentChannel(means.monitor);
  }
}

const NOTHING: Effect = { gain: 0, offset: 0 };

function on(quantity: Quantity, effect: Partial<Effect>): Pick<Cause, 'voltage' | 'current'> {
  const full = { ...NOTHING, ...effect };
  return quantity === 'voltage'
    ? { voltage: full, current: NOTHING }
    : { voltage: NOTHING, current: full };
}

const SI = { voltage: 'V', current: 'A' } as const;

/**
 * The step stands for what the converter hides of a reading that does not move; what the scatter of
 * the trial shows of it already is taken off there.
 */
function wiredCauses(channel: WiredChannel, isZeroed: boolean): Cause[] {
  const { quantity, stepUncertainty, gain, offsetCauses } = channel;
  const zero = { ...on(quantity, { offset: 1 }), channel: quantity, unit: SI[quantity] };
  const offsets = isZeroed
    ? [{ ...zero, name: 'zero as taken', standardUncertainty: stepUncertainty } as const]
    : [];
  return [
    ...gain.causes.map((cause) => gainCause(quantity, cause)),
    ...(isZeroed ? [] : offsetCauses.map((cause) => offsetCause(channel, cause))),
    ...offsets.map((one): Cause => ({ ...one, distribution: 'rectangular', isCommon: true })),
    {
      ...zero,
      name: 'step of the reading',
      standardUncertainty: stepUncertainty,
      distribution: 'rectangular',
      isCommon: false,
    },
  ];
}

function gainCause(quantity: Quantity, { name, limit, sensitivity, shared }: GainCause): Cause {
  return {
    ...on(quantity, { gain: sensitivity }),
    name,
    channel: shared ? 'both' : quantity,
    unit: 'ratio',
    standardUncertainty: rectangular(limit),
    distribution: 'rectangular',
    isCommon: true,
  };
}

/** What is shared is so by the step: a step of the converter is another amount in each channel. */
function offsetCause({ quantity, step }: WiredChannel, cause: OffsetCause): Cause {
  const { name, limit, shared } = cause;
  const rest = { name, distribution: 'rectangular', isCommon: true } as const;
  return shared
    ? {
        ...rest,
        ...on(quantity, { offset: step }),
        channel: 'both',
        unit: 'step',
        standardUncertainty: rectangular(ZERO_LIMIT_STEPS),
      }
    : {
        ...rest,
        ...on(quantity, { offset: 1 }),
        channel: quantity,
        unit: SI[quantity],
        standardUncertainty: rectangular(limit),
      };
}

/**
 * Who states a gain does not say what it has in common with the other channel's: one reference, one
 * meter that both were compared with. For power the worse case is that all of it is.
 */
function statedCauses(
  quantity: Quantity,
  { gainUncertainty, offsetUncertainty }: Stated,
): Cause[] {
  const rest = { distribution: 'normal', isCommon: true } as const;
  const gain: Cause = {
    ...on(quantity, { gain: gainUncertainty }),
    ...rest,
    name: 'gain as stated',
    channel: 'both',
    unit: 'limit',
    standardUncertainty: 1,
  };
  if (offsetUncertainty === null) return [gain];
  const offset: Cause = {
    ...on(quantity, { offset: 1 }),
    ...rest,
    name: 'zero as stated',
    channel: quantity,
    unit: SI[quantity],
    standardUncertainty: offsetUncertainty,
  };
  return [gain, offset];
}

/** Counts below one do not hold what the last digit hides: see meterUncertainty. */
function meterCauses(quantity: Quantity, { relative, counts, resolution }: Meter): Cause[] {
  const accuracy: Cause = {
    ...on(quantity, { gain: relative, offset: counts * resolution }),
    name: 'accuracy of the meter',
    channel: quantity,
    unit: 'limit',
    standardUncertainty: rectangular(1),
    distribution: 'rectangular',
    isCommon: true,
  };
  if (counts >= 1) return [accuracy];
  const step: Cause = {
    ...on(quantity, { offset: 1 }),
    name: 'step of the reading',
    channel: quantity,
    unit: SI[quantity],
    standardUncertainty: ofStep(resolution),
    distribution: 'rectangular',
    isCommon: false,
  };
  return [accuracy, step];
}
