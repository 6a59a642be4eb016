import type { SessionInfo } from '../store/store.ts';
import { InputError } from './exit-errors.ts';

/** A session was named that is not there: which ones are. */
export function unknownSession(
  wanted: string,
  dataFolder: string,
  sessions: readonly SessionInfo[],
): InputError {
  const known = sessions.map(({ id }) => id).join(', ') || 'none';
  return new InputError('unknown-session', `There is no session "${wanted}" in ${dataFolder}. It holds: ${known}.`);
}
