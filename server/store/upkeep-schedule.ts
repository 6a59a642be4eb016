/** When the data file is looked after: a check and a copy soon after the start, then copies. */
import { once } from 'node:events';
import type { Worker } from 'node:worker_threads';
import type { Notice } from '#core/events.ts';
import type { Task, UpkeepOutcome } from './messages.ts';
import { startThread } from './threads.ts';
import { notCopied } from './upkeep.ts';

export interface Upkeep {
  problems(): readonly Notice[];
  stop(): Promise<void>;
}

/**
 * @param first_ms until the check and the first copy: after the start, not in its way
 * @param every_ms from one copy to the next
 */
export function scheduleUpkeep(dataFolder: string, first_ms: number, every_ms: number): Upkeep {
  let damagedRows: readonly Notice[] = [];
  let withoutCopy: readonly Notice[] = [];
  let thread: Worker | null = null;
  let stopped = false;
  let timer = setTimeout(() => void first(), first_ms);

  async function first(): Promise<void> {
    damagedRows = await run('check');
    if (damagedRows.length === 0) await copy();
    else withoutCopy = [notCopied('the copy that there is may hold the rows that are damaged now')];
  }

  async function copy(): Promise<void> {
    if (stopped) return;
    withoutCopy = await run('copy');
    if (!stopped) timer = setTimeout(() => void copy(), every_ms);
  }

  async function run(role: Task['role']): Promise<readonly Notice[]> {
    thread = startThread({ role, dataFolder });
    try {
      const [outcome] = (await once(thread, 'message')) as [UpkeepOutcome];
      return outcome.problems;
    } catch (error) {
      const message = `The data file could not be looked after (${String(error)}).`;
      return [{ code: 'upkeep-failed', message, about: [String(error)] }];
    }
  }

  return {
    problems: () => [...damagedRows, ...withoutCopy],
    stop: async () => {
      stopped = true;
      clearTimeout(timer);
      await thread?.terminate();
    },
  };
}
