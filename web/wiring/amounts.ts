/** Numbers of the wiring page, no finer than they deserve, with a decimal point. */
import { decimalText } from '#core/instrument/decimal-text.ts';
import { decimalAt, firstPlace, prefixFor, scaled, UNIT_SPACE } from '#core/metrology/format.ts';

/** To three digits, with a prefix: "14.6 mV". */
export function amount(value: number, unit: string, digits = 3): string {
  if (value === 0) return `0${UNIT_SPACE}${unit}`;
  const rounded = Number(value.toPrecision(digits));
  const { exponent, symbol } = prefixFor(rounded);
  const number = scaled(rounded, exponent);
  return `${decimalAt(number, firstPlace(number) - digits + 1)}${UNIT_SPACE}${symbol}${unit}`;
}

/** As resistors are spoken of: "0.82 Ω", "20 kΩ". */
export function ohms(resistance_Ohm: number): string {
  if (resistance_Ohm >= 1) return amount(resistance_Ohm, 'Ω', 2);
  return `${decimalText(resistance_Ohm, 3)}${UNIT_SPACE}Ω`;
}

/** Two digits: "2.9 %". */
export function percent(fraction: number): string {
  if (fraction === 0) return `0${UNIT_SPACE}%`;
  const number = Number((fraction * 100).toPrecision(2));
  return `${decimalAt(number, Math.min(firstPlace(number) - 1, 0))}${UNIT_SPACE}%`;
}

export const UNITS = { voltage: 'V', current: 'A' } as const;
