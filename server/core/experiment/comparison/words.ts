/** Levels and responses as people read them, from names such as angle_deg and power_W. */
import { decimalAt, firstPlace, placeOf } from '../../metrology/format.ts';
import type { LevelKey } from './comparison-schema.ts';

export interface Words {
  /** For instance "20°", "80 mm", "short"; a number without a unit has the factor's name. */
  level(level: LevelKey): string;
  /** A number on the factor's scale, no finer than `uncertainty` makes sense. */
  place(value: number, uncertainty: number | null): string;
  /** For instance "power". */
  readonly response: string;
  /** A difference of responses, for instance "0.03 W". */
  amount(value: number): string;
}

export function wordsFor({ factor, response }: { factor: string; response: string }): Words {
  const [factorName, factorUnit] = parted(factor);
  const [responseName, responseUnit] = parted(response);
  const withUnit = (text: string): string => {
    if (factorUnit === 'deg') return `${text}°`;
    return factorUnit === '' ? `${factorName} ${text}` : `${text} ${factorUnit}`;
  };
  return {
    level: (level) => (typeof level === 'number' ? withUnit(plain(level)) : level),
    place: (value, uncertainty) => {
      if (uncertainty === null || !(uncertainty > 0)) return withUnit(short(value));
      return withUnit(decimalAt(value, placeOf(uncertainty)));
    },
    response: responseName,
    amount: (value) => `${short(value)}${responseUnit === '' ? '' : ` ${responseUnit}`}`,
  };
}

/** Name and unit: "windSpeed_mps" is "wind speed", "mps". */
function parted(name: string): [string, string] {
  const cut = name.lastIndexOf('_');
  const [stem, unit] = cut > 0 ? [name.slice(0, cut), name.slice(cut + 1)] : [name, ''];
  const words = stem.replace(/([a-z])([A-Z])/g, (_, end: string, start: string) => {
    return `${end} ${start.toLowerCase()}`;
  });
  return [words.replaceAll('_', ' ').trim() || name, unit];
}

function plain(value: number): string {
  return String(value).replace('-', '−');
}

/** Two digits. */
function short(value: number): string {
  return value === 0 ? '0' : decimalAt(value, firstPlace(value) - 1);
}

/** "20°", "20° and 25°", "20°, 25° and 30°". */
export function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}

/** "about 30 % more power than", "about 2.4 times as much power as". */
export function moreThan(share: number, response: string): string {
  if (share >= 1) return `about ${short(1 + share)} times as much ${response} as`;
  return `about ${short(100 * share)} % more ${response} than`;
}
