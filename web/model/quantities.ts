/** How the page writes each quantity: one prefix a session, no digit that is not supported. */
import { firstPlace, placeOf, prefixFor, scaled, type Prefix } from '#core/metrology/format.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';

export type Shown = 'voltage_V' | 'current_A' | 'windSpeed_mps' | 'power_W';

interface Kind {
  readonly unit: string;
  /** A usual full scale, SI unit: for axis and prefix while nothing says better. */
  readonly usual: number;
  /** Digits of the axis that a live value is given to at most. */
  readonly digits: number;
}

export const KINDS: Readonly<Record<Shown, Kind>> = {
  voltage_V: { unit: 'V', usual: 2, digits: 3 },
  current_A: { unit: 'A', usual: 0.2, digits: 3 },
  windSpeed_mps: { unit: 'm/s', usual: 5, digits: 2 },
  power_W: { unit: 'W', usual: 0.2, digits: 3 },
};

export type Prefixes = Readonly<Record<Shown, Prefix>>;

/** The session's prefixes: from its largest trial, or from the readings while there is none. */
export function sessionPrefixes(
  trials: readonly TrialView[],
  liveMost: Readonly<Record<Shown, number>>,
): Prefixes {
  const of = (quantity: Shown): Prefix => {
    if (quantity === 'windSpeed_mps') return { symbol: '', exponent: 0 };
    const values = trials.map((trial) => Math.abs(trial[quantity]?.value ?? 0));
    const largest = Math.max(0, ...values);
    if (largest > 0) return prefixFor(largest);
    return prefixFor(Math.max(liveMost[quantity], KINDS[quantity].usual));
  };
  return {
    voltage_V: of('voltage_V'),
    current_A: of('current_A'),
    windSpeed_mps: of('windSpeed_mps'),
    power_W: of('power_W'),
  };
}

/** The unit with its prefix, for instance "mW". */
export function unitOf(quantity: Shown, prefix: Prefix): string {
  return `${prefix.symbol}${KINDS[quantity].unit}`;
}

/**
 * The place of the last digit of a live reading, in the prefixed unit: two or three digits of the
 * axis, fewer when the newest trial has shown that so many are not supported.
 */
export function livePlace(
  quantity: Shown,
  shown: { axisHigh: number; prefix: Prefix; newest: TrialView | undefined },
): number {
  const fromAxis =
    firstPlace(scaled(shown.axisHigh, shown.prefix.exponent) * 0.999) - KINDS[quantity].digits + 1;
  const measured = shown.newest?.[quantity] ?? null;
  const expanded = measured === null ? null : expandedUncertainty(measured);
  if (expanded === null) return fromAxis;
  return Math.max(fromAxis, placeOf(scaled(expanded, shown.prefix.exponent)));
}
