/** Numbers of the report, with no more digits than they are known to (GUM 7.2.6). */
import {
  decimalAt,
  firstPlace,
  NO_VALUE,
  placeOf,
  scaled,
  UNIT_SPACE,
  type Prefix,
} from '#core/metrology/format.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { ReportWords } from '../words/report-words.ts';

/** How the report writes power: one prefix, the marks of the language. */
export interface Writing {
  readonly prefix: Prefix;
  readonly words: Catalogue;
}

/** Without a known uncertainty a value has so many digits. */
const DIGITS = 3;

/** The place down to which power is written: two digits of half its interval. */
export function placeFor(
  value_W: number,
  limits: { readonly low: number | null; readonly high: number | null },
  { exponent }: Prefix,
): number {
  const { low, high } = limits;
  const half = low === null || high === null ? 0 : scaled(high - low, exponent) / 2;
  if (half > 0) return placeOf(half, 'full');
  const value = scaled(value_W, exponent);
  return value === 0 ? 0 : firstPlace(value) - DIGITS + 1;
}

/** Without its unit. */
export function powerAt(value_W: number, place: number, { prefix, words }: Writing): string {
  return words.number(decimalAt(scaled(value_W, prefix.exponent), place));
}

/** "231 … 250"; "–" where nothing is known. */
export function limitsAt(
  { low, high }: { readonly low: number | null; readonly high: number | null },
  place: number,
  writing: Writing,
): string {
  if (low === null || high === null) return NO_VALUE;
  return `${powerAt(low, place, writing)} … ${powerAt(high, place, writing)}`;
}

/** About: two digits, one where it is only a rough word. */
export function percentText(share: number, { number }: Catalogue, digits: 1 | 2 = 2): string {
  const percent = Math.abs(100 * share);
  const text = percent > 0 ? decimalAt(percent, firstPlace(percent) - digits + 1) : '0';
  return `${number(text)}${UNIT_SPACE}%`;
}

/** How often chance alone does as much, in words. */
export function oddsText(p: number, { comparison: say }: ReportWords): string {
  const { count, of, isLess } = oddsOf(p);
  return isLess ? say.lessThan(say.odds(count, of)) : say.odds(count, of);
}

/** The same for a table: "3 of 1000". */
export function shortOdds(p: number, { comparison: say }: ReportWords): string {
  const { count, of, isLess } = oddsOf(p);
  return isLess ? `<${UNIT_SPACE}${say.oddsShort(count, of)}` : say.oddsShort(count, of);
}

function oddsOf(p: number): { count: number; of: number; isLess: boolean } {
  if (p < 0.001) return { count: 1, of: 1000, isLess: true };
  const of = p < 0.01 ? 1000 : 100;
  return { count: Math.round(of * p), of, isLess: false };
}

/** "0.012", "< 0.001" */
export function chanceText(p: number, { number }: Catalogue): string {
  if (p < 0.001) return `<${UNIT_SPACE}${number('0.001')}`;
  return number(decimalAt(p, firstPlace(p) - 1));
}

/** F to three digits, and its degrees of freedom: "9.72 (3; 16)". */
export function ratioText(f: number, freedom: readonly number[], { number }: Catalogue): string {
  const whole = f === 0 ? '0' : decimalAt(f, firstPlace(f) - 2);
  const degrees = freedom.map((df) => (Number.isInteger(df) ? String(df) : decimalAt(df, -1)));
  return `${number(whole)} (${degrees.map(number).join('; ')})`;
}
