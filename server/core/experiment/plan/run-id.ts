/**
 * A run's id says what the run is, and nothing of where it stands in the plan. So it stays the same
 * when levels, rounds or the order change, and a run that has been done is known again.
 *
 *     id     = "r" round [" group:" text] [" reference:" count] *(" " key "=" level)
 *              [" repeat:" count] [" again:" count]
 *     level  = number / text          a number has a decimal point, whatever the country
 *     text   = word / JSON string     a word is letters and digits and begins with a letter
 *
 * For instance `r2 angle_deg=20`, or `r1 group:"red table" blades=3 tip=round repeat:2`.
 */

/** What a rig is set to: for each factor's key its level, a number or a name. */
export type Setting = Readonly<Record<string, number | string>>;

export interface RunParts {
  readonly round: number;
  readonly group: string | null;
  /** Which of its round's reference runs it is, from 1; 0 for a run that is none. */
  readonly reference: number;
  readonly setting: Setting;
  readonly repeat: number;
  /** Which of the runs that were added to it, from 1; 0 for the planned one. */
  readonly again: number;
}

const WORD = /^\p{L}[\p{L}\p{N}]*$/u;

function written(value: number | string): string {
  if (typeof value === 'number') return String(value);
  return WORD.test(value) ? value : JSON.stringify(value);
}

function read(text: string): number | string {
  if (text.startsWith('"')) return JSON.parse(text) as string;
  return WORD.test(text) ? text : Number(text);
}

/** Keys in alphabetical order: to list the factors in another order makes no other run. */
export function runIdOf({ round, group, reference, setting, repeat, again }: RunParts): string {
  const words = [`r${round}`];
  if (group !== null) words.push(`group:${written(group)}`);
  if (reference > 0) words.push(`reference:${reference}`);
  for (const key of Object.keys(setting).sort()) words.push(`${key}=${written(setting[key] ?? '')}`);
  if (repeat > 1) words.push(`repeat:${repeat}`);
  if (again > 0) words.push(`again:${again}`);
  return words.join(' ');
}

/** What an id says; null for a text that is no id of a run. */
export function partsOf(id: string): RunParts | null {
  const round = /^r(\d+)/.exec(id)?.[1];
  if (round === undefined) return null;
  const about = new Map<string, number | string>();
  const setting: Record<string, number | string> = {};
  for (const [, key = '', sign, text = ''] of id.matchAll(/ (\w+)([:=])("(?:[^"\\]|\\.)*"|\S+)/g)) {
    if (sign === ':') about.set(key, read(text));
    else setting[key] = read(text);
  }
  const group = about.get('group');
  return {
    round: Number(round),
    group: group === undefined ? null : String(group),
    reference: Number(about.get('reference') ?? 0),
    setting,
    repeat: Number(about.get('repeat') ?? 1),
    again: Number(about.get('again') ?? 0),
  };
}

/**
 * Whether two ids are of readings at one setting, for the second of which nothing is set anew:
 * repeats of a run, and what was added to it.
 */
export function isSameSetting(id: string, other: string): boolean {
  const withoutCounts = (one: string): string => one.replace(/( repeat:\d+)?( again:\d+)?$/, '');
  return withoutCounts(id) === withoutCounts(other);
}
