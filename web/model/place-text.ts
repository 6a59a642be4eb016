/** A place between the levels of a factor, written as its levels are. */
import type { Factor } from '#core/experiment/plan/plan.ts';
import { decimalAt } from '#core/metrology/format.ts';
import { knownUnit, usualUnit, withSymbol } from '../plan/units.ts';
import type { Catalogue } from '../words/catalogue.ts';

/** @param value in the unit of the factor's key; `step` of that unit is the last place that shows */
export function placeText(factor: Factor, value: number, step: number, words: Catalogue): string {
  const { size, write } = scaleOf(factor);
  const place = Math.floor(Math.log10(step / size));
  return write(words.number(decimalAt(value / size, place)));
}

interface Scale {
  /** How many of the key's unit one of the labels' is. */
  readonly size: number;
  write(number: string): string;
}

/** By a label that is a number with its unit, "80 mm"; else in the kind's usual unit. */
function scaleOf({ kind, levels }: Factor): Scale {
  for (const { label, value } of levels) {
    const [, number = '', unit = ''] = /^([\d.,]+)(\D*)$/.exec(label) ?? [];
    const typed = Number(number.replace(',', '.'));
    if (value !== null && typed > 0) return { size: value / typed, write: (text) => text + unit };
  }
  const symbol = usualUnit(kind);
  const size = knownUnit(kind, symbol)?.size ?? 1;
  return { size, write: (text) => withSymbol(text, symbol) };
}
