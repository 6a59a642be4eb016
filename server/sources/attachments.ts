import type { Board } from '#core/link.ts';
import type { Ports } from './ports.ts';
import type { RecordingClock } from './source.ts';

/** Which boards are attached, and since when. */
export interface Attachments {
  boards(): readonly Board[];
  /** Asks the system. When it can't tell, what it told last stands: unseen is not gone. */
  look(): Promise<void>;
  /** Seconds since the board was plugged in; infinite when it was there at the first look. */
  age_s(board: Board): number;
  /** How long the board, which is gone now, had been there. */
  stay_s(board: Board): number;
}

export function createAttachments(ports: Pick<Ports, 'list'>, clock: RecordingClock): Attachments {
  let boards: readonly Board[] = [];
  let looked = false;
  /** By identity, arrival and stay of those seen since; bounded by the boards that one desk has. */
  const cameAt_s = new Map<string, number>();
  const stayed_s = new Map<string, number>();

  function age_s({ id }: Board): number {
    return clock() - (cameAt_s.get(id) ?? -Infinity);
  }

  function note(now: readonly Board[]): void {
    const arrived = now.filter((board) => !boards.some(({ id }) => id === board.id));
    const left = boards.filter((board) => !now.some(({ id }) => id === board.id));
    for (const board of left) stayed_s.set(board.id, age_s(board));
    for (const board of arrived) if (looked) cameAt_s.set(board.id, clock());
  }

  return {
    boards: () => boards,
    look: async () => {
      const now = await ports.list().catch(() => boards);
      note(now);
      boards = now;
      looked = true;
    },
    age_s,
    stay_s: ({ id }) => stayed_s.get(id) ?? Infinity,
  };
}
