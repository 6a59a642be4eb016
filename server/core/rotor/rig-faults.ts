/** What is wrong with a rig's file, in words that say what to write instead. */
import type { z } from 'zod';
import { FIELDS, MOST_LEVELS, type Field } from './rig-fields.ts';

type Issue = z.core.$ZodIssue;

const LOADS =
  'an object with kind "resistor" and resistance_Ohm, or with kind "lamp", ratedVoltage_V and ratedCurrent_A';

/** One sentence a fault, the field first, then what is expected. */
export function faultsOf(issues: readonly Issue[], data: unknown): string[] {
  const explained = new Set<string>();
  const unknown = issues.flatMap((issue) => {
    if (issue.code !== 'unrecognized_keys') return [];
    return issue.keys.map((key) => {
      const at = nameOf(issue.path);
      const { sentence, meant } = unknownField(at, key, data);
      if (meant !== null) explained.add(meant);
      return sentence;
    });
  });
  const others = issues
    .filter(({ code, path }) => code !== 'unrecognized_keys' && !explained.has(nameOf(path)))
    .map((issue) => faultOf(issue, data));
  return [...unknown, ...others];
}

function faultOf(issue: Issue, data: unknown): string {
  if (issue.code === 'custom') return issue.message;
  const name = nameOf(issue.path);
  const value = valueAt(data, issue.path);
  if (value === undefined) return missingFault(name);
  return `${name || 'It'} is ${shown(value)}; expected: ${expectedAt(name)}.`;
}

export function missingFault(name: string): string {
  return `${name || 'It'} is missing; expected: ${expectedAt(name)}.`;
}

/** What to write there. */
export function expectedAt(name: string): string {
  const field = FIELDS[name.replace(/\[\d+\]/, '[]') as keyof typeof FIELDS] as Field | undefined;
  if (field) return `${field.what}, ${field.low} to ${field.high}`;
  if (`${name}[]` in FIELDS) return `a list of 1 to ${MOST_LEVELS}: ${expectedAt(`${name}[0]`)}`;
  if (name === 'load.kind') return '"resistor" or "lamp"';
  if (name === 'load') return LOADS;
  const inside = fieldsIn(name);
  return inside.length > 0 ? `an object with ${inside.join(', ')}` : 'a rig (docs/rotor.md has one)';
}

/** Of the field's own name: `radius_cm` is called by its unit's place, `radius`. */
function unknownField(
  at: string,
  key: string,
  data: unknown,
): { sentence: string; meant: string | null } {
  const prefix = at === '' ? '' : `${at}.`;
  const known = fieldsIn(at, data);
  const meant =
    known.find((name) => stemOf(name) === stemOf(key)) ?? known.find((name) => isNear(name, key));
  const name = `${prefix}${key}`;
  if (meant === undefined) {
    return { sentence: `${name} is not known; known here: ${known.join(', ')}.`, meant: null };
  }
  const field = `${prefix}${meant}`;
  return { sentence: `${name} is not known; expected: ${field}, ${expectedAt(field)}.`, meant: field };
}

const PATHS = Object.keys(FIELDS).flatMap((name) => {
  const path = name.replace('[]', '');
  return path === 'load.resistance_Ohm' ? ['load.kind', path] : [path];
});

/** Names directly inside an object of the file. */
function fieldsIn(at: string, data?: unknown): string[] {
  const depth = at === '' ? 0 : at.split('.').length;
  const inside = PATHS.filter((path) => at === '' || path.startsWith(`${at}.`));
  const names = [...new Set(inside.map((path) => path.split('.')[depth]!))];
  return at === 'load' ? names.filter((name) => belongsToLoad(name, data)) : names;
}

/** A resistor's fields are not a lamp's. */
function belongsToLoad(name: string, data: unknown): boolean {
  const kind = valueAt(data, ['load', 'kind']);
  if (name === 'kind' || kind === undefined) return true;
  return (kind === 'resistor') === (name === 'resistance_Ohm');
}

/** Without the unit, in small letters. */
function stemOf(name: string): string {
  return name.split('_')[0]!.toLowerCase();
}

/** Differs by a letter or two: one name's letters changed, left out or added. */
function isNear(name: string, key: string): boolean {
  const [a, b] = [stemOf(name), stemOf(key)];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(changed, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[b.length]! <= 2 && a.length > 3;
}

/** `angles_deg[2]`, `rotor.radius_m` */
function nameOf(path: readonly PropertyKey[]): string {
  const parts = path.map((part) => (typeof part === 'number' ? `[${part}]` : `.${String(part)}`));
  return parts.join('').replace(/^\./, '');
}

function valueAt(data: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, part) => {
    if (typeof value !== 'object' || value === null) return undefined;
    return (value as Record<PropertyKey, unknown>)[part];
  }, data);
}

const LONGEST_SHOWN = 40;

function shown(value: unknown): string {
  // JSON has no such number: it is one like 1e400.
  if (value === Infinity || value === -Infinity) return 'a number beyond all bounds';
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}
