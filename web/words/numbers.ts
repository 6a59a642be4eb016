/**
 * The one way in which a number comes onto a page: written with a point by the core, turned here
 * into what the language writes. SI brochure, 5.4.4: the decimal marker is the point or the comma.
 */
import { UNIT_SPACE } from '#core/metrology/format.ts';

export const withPoint = (decimal: string): string => decimal;
export const withComma = (decimal: string): string => decimal.replace('.', ',');

/**
 * What was typed, with a decimal point: where the language writes a comma, one comma is that. With
 * a point too it could mean anything, and is left as it is.
 */
export function typedWithPoint(typed: string, number: (decimal: string) => string): string {
  return typed.includes('.') || number('.') === '.' ? typed : typed.replace(',', '.');
}

/** A number in whole seconds: "3 s". */
export function seconds(time_s: number): string {
  return `${time_s.toFixed(0)}${UNIT_SPACE}s`;
}
