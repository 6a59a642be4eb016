/** Why something was not done, in the page's language; in English the program speaks for itself. */
import type { NotNow } from '#core/experiment/not-now.ts';
import type { Say } from './program-words.ts';

export interface RefusedWords {
  readonly notNow: Readonly<Record<NotNow, Say>>;
  readonly door: Readonly<Record<'no-address' | 'not-opened', Say>>;
  readonly file: Readonly<Record<FileRefusal, string>>;
  /** A row that is not what was written; takes what it is of. */
  readonly damaged: Readonly<Record<DamagedRow, Say>>;
}

/** What may be wrong with a session's file that is to be taken in, or saved. */
type FileRefusal =
  | 'file-missing'
  | 'file-unusable'
  | 'file-exists'
  | 'file-not-session'
  | 'file-without-plan'
  | 'file-damaged'
  | 'file-too-new'
  | 'file-too-large';

type DamagedRow =
  | 'session'
  | 'recording'
  | 'input_chunk'
  | 'trial_revision'
  | 'plateau'
  | 'learnt'
  | 'ledger'
  | 'more';

/** The sentence of this kind; the kind itself where there is none. */
export function sayOf(
  table: Readonly<Record<string, Say>>,
  kind: string,
  about: readonly string[],
): string {
  const say = Object.hasOwn(table, kind) ? table[kind] : undefined;
  return say === undefined ? kind : say(...about);
}

/** Sentences of a plan's obstacles, from their kinds and names in turn. */
export function planSaid(
  obstacles: Readonly<Record<string, (about: string) => string>>,
  pairs: readonly string[],
): string {
  const kinds = pairs.flatMap((kind, i) => (i % 2 === 0 ? [[kind, pairs[i + 1] ?? ''] as const] : []));
  return kinds.map(([kind, about]) => obstacles[kind]?.(about) ?? kind).join(' ');
}
