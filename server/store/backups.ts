/** Keeps the copy of the data file young while the server runs. */
import { once } from 'node:events';
import type { Worker } from 'node:worker_threads';
import type { Notice } from '#core/events.ts';
import type { BackupOutcome } from './messages.ts';
import { startThread } from './threads.ts';

export interface Backups {
  /** Why the copy is not young, null when it is. */
  problem(): Notice | null;
  stop(): Promise<void>;
}

/**
 * @param first_ms when the first copy is made: after the start, not in its way
 * @param every_ms how old a copy may become; a file that has not changed is not copied again
 */
export function keepBackups(dataFolder: string, first_ms: number, every_ms: number): Backups {
  let hindrance: string | null = null;
  let thread: Worker | null = null;
  let stopped = false;
  let timer = schedule(first_ms);

  function schedule(delay_ms: number): NodeJS.Timeout {
    return setTimeout(() => void copy(), delay_ms).unref();
  }

  async function copy(): Promise<void> {
    thread = startThread({ role: 'backup', dataFolder });
    try {
      const [outcome] = (await once(thread, 'message')) as [BackupOutcome];
      hindrance = outcome.hindrance;
    } catch (error) {
      hindrance = String(error);
    }
    thread = null;
    if (!stopped) timer = schedule(every_ms);
  }

  return {
    problem: () =>
      hindrance === null
        ? null
        : {
            code: 'backup-failed',
            message:
              `The data file is not being copied for safety (${hindrance}); ` +
              'trials are saved all the same.',
          },
    stop: async () => {
      stopped = true;
      clearTimeout(timer);
      await thread?.terminate();
    },
  };
}
