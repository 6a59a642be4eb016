/** Which source of lines to use, as said on the command line. */
import { InputError } from './commands/exit-errors.ts';
import type { PlayedSession } from './player.ts';

export type ChosenSource =
  /** A serial port by its path: works for ports that the system does not list, too. */
  | { readonly kind: 'path'; readonly path: string }
  /** A board by identity, wherever it is plugged in. */
  | { readonly kind: 'board'; readonly id: string }
  /** No board: readings of meters are keyed in. */
  | { readonly kind: 'meters' }
  | { readonly kind: 'simulated'; readonly seed: number }
  | { readonly kind: 'replay'; readonly file: string }
  /** A stored session, played as a demonstration. */
  | ({ readonly kind: 'session' } & PlayedSession);

/** Automatic: a board if one is attached, else meters where they were used last, else the simulated rig. */
export type SourceChoice = ChosenSource | { readonly kind: 'automatic' };

export const DEFAULT_SEED = 1;
const LARGEST_SEED = 2 ** 32 - 1;

/**
 * Reads `serial:PATH`, `meters`, `simulated`, `simulated:SEED` or `replay:FILE`.
 * @throws InputError saying what is accepted
 */
export function readSourceChoice(text: string): ChosenSource {
  const colon = text.indexOf(':');
  const kind = colon === -1 ? text : text.slice(0, colon);
  const rest = colon === -1 ? '' : text.slice(colon + 1);
  if (kind === 'serial' && rest !== '') return { kind: 'path', path: rest };
  if (kind === 'replay' && rest !== '') return { kind: 'replay', file: rest };
  if (text === 'meters') return { kind: 'meters' };
  if (kind === 'simulated') {
    if (colon === -1) return { kind: 'simulated', seed: DEFAULT_SEED };
    const seed = /^\d{1,10}$/.test(rest) ? Number(rest) : NaN;
    if (seed <= LARGEST_SEED) return { kind: 'simulated', seed };
    throw new InputError('bad-value', `The seed in "${text}" must be a whole number from 0 to ${LARGEST_SEED}.`);
  }
  throw new InputError(
    'bad-value',
    `--source takes serial:PATH, meters, simulated, simulated:SEED or replay:FILE, not "${text}".`,
  );
}
