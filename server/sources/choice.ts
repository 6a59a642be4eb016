import type { Board } from '#core/link.ts';
import { isSameKind } from './naming.ts';

/** What the person asked for: a port by its path, or a board by its identity. */
export type Want = { readonly path: string } | { readonly id: string };

/**
 * The board to take among those attached: by identity, whatever its path is now. A board without a
 * number of its own may return in another socket, and is then known by being the only one of its
 * kind. Null when none will do: taking another board would mix two rigs into one record.
 * @param last the board that was in use before, null when none was
 */
export function chooseBoard(
  attached: readonly Board[],
  want: Want,
  last: Board | null,
): Board | null {
  const id = last?.id ?? ('id' in want ? want.id : null);
  const same = attached.find((board) => board.id === id);
  if (same !== undefined) return same;
  if (last === null || last.serialNumber !== null) return null;
  const kin = attached.filter((board) => isSameKind(board, last));
  return kin.length === 1 ? (kin[0] ?? null) : null;
}
