/** The units in which levels are typed, and the unit in which a trial carries them. */
import type { Factor } from '#core/experiment/plan/plan.ts';
import { UNIT_SPACE } from '#core/metrology/format.ts';

export type FactorKind = Factor['kind'];

interface KnownUnit {
  /** As it is printed. */
  readonly symbol: string;
  /** Other ways to type it. */
  readonly typed: readonly string[];
  /** How many of the key's unit one of it is. */
  readonly size: number;
}

const KNOWN: Readonly<Partial<Record<FactorKind, readonly KnownUnit[]>>> = {
  angle: [{ symbol: '°', typed: ['º', 'deg', 'degrees', 'Grad'], size: 1 }],
  length: [
    { symbol: 'mm', typed: [], size: 1e-3 },
    { symbol: 'cm', typed: [], size: 1e-2 },
    { symbol: 'm', typed: [], size: 1 },
  ],
  blades: [{ symbol: '', typed: ['blades', 'blade', 'Flügel', 'palas', 'pales'], size: 1 }],
  load: [
    { symbol: 'Ω', typed: ['\u2126', 'ohm', 'ohms'], size: 1 },
    { symbol: 'kΩ', typed: ['k\u2126', 'kohm'], size: 1e3 },
  ],
};

/** The unit that a factor of this kind is typed in, unless the person says otherwise. */
export function usualUnit(kind: FactorKind): string {
  return KNOWN[kind]?.[0]?.symbol ?? '';
}

/** The known unit that was typed; null for one of which only its name is known. */
export function knownUnit(kind: FactorKind, typed: string): KnownUnit | null {
  const same = (name: string): boolean => name.toLowerCase() === typed.toLowerCase();
  const units = KNOWN[kind] ?? [];
  return units.find(({ symbol, typed: others }) => same(symbol) || others.some(same)) ?? null;
}

/** Whether levels of this kind can be typed in this unit: any, where the kind has none of its own. */
export function fits(kind: FactorKind, unit: string): boolean {
  return !hasUnits(kind) || knownUnit(kind, unit) !== null;
}

/** Whether levels of this kind have units of their own. */
export function hasUnits(kind: FactorKind): boolean {
  return KNOWN[kind] !== undefined;
}

/** "25°", "80 mm", "3": a degree sign stands close, other units apart. */
export function withSymbol(number: string, symbol: string): string {
  if (symbol === '') return number;
  return symbol === '°' ? `${number}°` : `${number}${UNIT_SPACE}${symbol}`;
}

const KEYS: Readonly<Partial<Record<FactorKind, string>>> = {
  angle: 'angle_deg',
  length: 'length_m',
  blades: 'blades',
  fan: 'fan',
  load: 'load_Ohm',
};

/** What a key may hold of a unit's letters. */
const SPELT: readonly (readonly [RegExp, string])[] = [
  [/[°º]/g, 'deg'],
  [/[Ω\u2126]/g, 'Ohm'],
  [/%/g, 'pct'],
  [/[µμ]/g, 'u'],
  [/\//g, 'p'],
];

/** The name under which trials carry the level: of the kind, or made of the factor's own name. */
export function keyOf(kind: FactorKind, name: string, unit: string, place: number): string {
  const known = KEYS[kind];
  if (known !== undefined) return known;
  const [first = '', ...rest] = plainWords(name.replace(/^[^\p{L}]+/u, ''));
  const others = rest.map((word) => word.charAt(0).toUpperCase() + word.slice(1));
  const stem = [first.toLowerCase(), ...others].join('').slice(0, 24) || `factor${place + 1}`;
  const suffix = SPELT.reduce((text, [sign, letters]) => text.replace(sign, letters), unit)
    .replace(/[^A-Za-z0-9]/g, '')
    .slice(0, 8);
  return suffix === '' ? stem : `${stem}_${suffix}`;
}

/** Words in letters without accents and digits. */
function plainWords(name: string): string[] {
  const plain = name.normalize('NFD').replace(/\p{M}/gu, '').replace(/ß/g, 'ss');
  return plain.match(/[A-Za-z0-9]+/g) ?? [];
}
