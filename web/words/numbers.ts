/**
 * The one way in which a number comes onto a page: written with a point by the core, turned here
 * into what the language writes. SI brochure, 5.4.4: the decimal marker is the point or the comma.
 */
import { UNIT_SPACE } from '#core/metrology/format.ts';

export const withPoint = (decimal: string): string => decimal;
export const withComma = (decimal: string): string => decimal.replace('.', ',');

/** A number in whole seconds: "3 s". */
export function seconds(time_s: number): string {
  return `${time_s.toFixed(0)}${UNIT_SPACE}s`;
}
