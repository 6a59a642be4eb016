/**
 * Levels as a teacher types them: "10 25 40 55 80", "10, 25, 40", "2,5; 3", "short medium long",
 * "short 60 mm, long 100 mm". A comma between two digits is a decimal comma unless that leaves a
 * number with two of them.
 */
import type { Level } from '#core/experiment/plan/plan.ts';
import { readNumber } from '#core/metrology/typed-number.ts';
import { hasUnits, knownUnit, withSymbol, type FactorKind } from './units.ts';

/** What one level was read as, before its unit is settled. */
interface Piece {
  readonly name: string;
  /** The number as it was typed; null for a level that is only a name. */
  readonly number: string | null;
  /** "" where only the factor's unit is meant. */
  readonly unit: string;
}

/** Reads a list of levels; `unit` is the one that holds where none is typed beside a number. */
export function readLevels(text: string, kind: FactorKind, unit: string): Level[] {
  return splitList(text)
    .flatMap((item) => piecesOf(item, kind, unit))
    .map((piece) => levelOf(piece, kind, unit));
}

/**
 * What stands like a unit behind a number, "10 rad", and is none of the kind's; null for nothing.
 * A name stands before its number.
 */
export function strangeUnit(text: string, kind: FactorKind, unit: string): string | null {
  if (!hasUnits(kind)) return null;
  for (const item of splitList(text)) {
    const [number, last] = wordsOf(item).slice(-2);
    if (number === undefined || last === undefined || readNumber(number) === null) continue;
    if (readNumber(last) === null && !isUnit(last, kind, unit)) return last;
  }
  return null;
}

/** The items of a list, by the strongest mark that separates them. */
function splitList(text: string): string[] {
  const by = (mark: RegExp): string[] => text.split(mark).filter((item) => /[^\s,]/.test(item));
  if (/[;\n]/.test(text)) return by(/[;\n]/);
  if (/,(\s|$)/.test(text)) return by(/,(?:\s|$)/);
  // "10,25,40": no number has two commas.
  if (/\d,\d+,\d/.test(text)) return by(/[,\s]/);
  if (/,(?!\d)|(?<!\d),/.test(text)) return by(/,(?!\d)|(?<!\d),/);
  return hasNumber(text) ? by(/$^/) : by(/\s/);
}

function hasNumber(text: string): boolean {
  return spaced(text).split(/\s/).some((word) => readNumber(word) !== null);
}

/** A level is a name, a number or both, the name first: a number and its unit end it. */
function piecesOf(item: string, kind: FactorKind, unit: string): Piece[] {
  const words = wordsOf(item);
  const pieces: Piece[] = [];
  let name: string[] = [];
  for (let i = 0; i < words.length; i++) {
    const word = words[i] ?? '';
    if (readNumber(word) === null) {
      name.push(word);
      continue;
    }
    const next = words[i + 1] ?? '';
    const hasUnit = next !== '' && isUnit(next, kind, unit);
    if (hasUnit) i += 1;
    pieces.push({ name: name.join(' '), number: word, unit: hasUnit ? next : '' });
    name = [];
  }
  return name.length === 0 ? pieces : [...pieces, { name: name.join(' '), number: null, unit: '' }];
}

function wordsOf(item: string): string[] {
  return spaced(item).split(/\s+/).filter((word) => word !== '');
}

/** A number apart from the unit that was typed close to it: "60mm" is "60 mm". */
function spaced(item: string): string {
  return item
    .replace(/,(?=\s|$)/g, ' ')
    .replace(/(^|\s)([+\-−]?\d+(?:[.,]\d+)?)(\p{L}+|[°º%])(?=\s|$)/gu, '$1$2 $3')
    .trim();
}

function isUnit(word: string, kind: FactorKind, unit: string): boolean {
  return knownUnit(kind, word) !== null || (unit !== '' && word === unit);
}

function levelOf({ name, number, unit: typed }: Piece, kind: FactorKind, unit: string): Level {
  if (number === null) return { label: name, value: null };
  const said = typed === '' ? unit : typed;
  const known = knownUnit(kind, said);
  const shown = withSymbol(number.replace('-', '−'), known?.symbol ?? said);
  const value = Number(((readNumber(number) ?? 0) * (known?.size ?? 1)).toPrecision(12));
  return { label: name === '' ? shown : `${name}, ${shown}`, value };
}
