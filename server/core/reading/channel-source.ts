/** Where a channel's reading comes from and how a number in the line becomes SI. */
import type { ChannelFrame } from '#protocol/frame.ts';
import type { Conversion, QuantityName } from '#protocol/quantity.ts';
import type { Calibration } from '../configuration.ts';
import type { Channel } from '../signal/sample.ts';
import { isCount } from './counter.ts';
import { LIMITS } from './limits.ts';
import { createPulseRate, takePulseCount, type PulseRate } from './pulse-rate.ts';

/** One number of a line, as header or announcement describe it. */
export interface Measured {
  /** For a person: the column's name or the channel's number and quantity. */
  readonly name: string;
  readonly quantity: QuantityName;
  /** Index among the line's numbers. */
  readonly at: number;
  /** From the board's unit to SI. */
  readonly conversion: Conversion;
  /** value = gain · scale · (number − zero) + offset, in the board's unit. */
  readonly announced: Pick<ChannelFrame, 'scale' | 'zero' | 'gain' | 'offset'>;
}

/** For numbers that are values already. */
export const NOTHING_ANNOUNCED: Measured['announced'] = { scale: 1, zero: 0, gain: 1, offset: 0 };

/** A measured number with all that turns it into a channel's reading, flat for the hot path. */
export interface ChannelSource {
  readonly at: number;
  /** Set where the number counts pulses; then their rate takes the number's place. */
  readonly pulses: PulseRate | null;
  readonly scale: number;
  readonly zero: number;
  readonly gain: number;
  readonly offset: number;
  readonly multiplier: number;
  readonly divisor: number;
  /** The operator's calibration, on top. */
  readonly ownGain: number;
  readonly ownOffset: number;
  readonly lowest: number;
  readonly highest: number;
}

export function createSource(
  channel: Channel,
  { at, conversion, announced, quantity }: Measured,
  calibration: Calibration | undefined,
): ChannelSource {
  const { scale, zero, gain, offset } = announced;
  return {
    at,
    pulses: isPulses(quantity) ? createPulseRate() : null,
    scale,
    zero,
    gain,
    offset,
    multiplier: conversion.multiplier,
    divisor: conversion.divisor,
    ownGain: calibration?.gain ?? 1,
    ownOffset: calibration?.offset ?? 0,
    lowest: LIMITS[channel].lowest,
    highest: LIMITS[channel].highest,
  };
}

export function isPulses(quantity: QuantityName): boolean {
  return quantity === 'pulses' || quantity === 'windPulses' || quantity === 'rotorPulses';
}

/** The reading in SI for the number `value` at `time_s`. NaN: nothing can be said yet. */
export function indicate(source: ChannelSource, value: number, time_s: number): number {
  const indication = source.pulses === null ? value : pulseRate_Hz(source.pulses, value, time_s);
  const announced = source.gain * (source.scale * (indication - source.zero)) + source.offset;
  const si = (announced * source.multiplier) / source.divisor;
  return source.ownGain * si + source.ownOffset;
}

/** Whether the quantity can have this, in SI. */
export function isPossible({ lowest, highest }: ChannelSource, reading: number): boolean {
  return !(reading < lowest || reading > highest);
}

function pulseRate_Hz(pulses: PulseRate, count: number, time_s: number): number {
  if (!isCount(count)) return Infinity;
  return takePulseCount(pulses, count, time_s) ?? Number.NaN;
}
