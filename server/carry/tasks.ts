/** What takes long with a session's file is done by a thread of its own: readings go on meanwhile. */
import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { SessionInfo } from '../store/store.ts';
import { FileError, type FileErrorCode } from './errors.ts';

export type FileTask =
  /** Writes the session's file. */
  | {
      readonly kind: 'save';
      readonly dataFolder: string;
      readonly sessionId: string;
      readonly to: string;
      readonly program: string;
    }
  /** Looks at a file, and puts its session into a data folder of its own. */
  | { readonly kind: 'unpack'; readonly file: string; readonly stageFolder: string };

export type FileOutcome =
  | { readonly kind: 'done'; readonly session: SessionInfo }
  | { readonly kind: 'refused'; readonly code: FileErrorCode; readonly message: string };

/**
 * @returns the session that it was about
 * @throws FileError
 */
export async function doTask(task: FileTask): Promise<SessionInfo> {
  const entry = import.meta.url.endsWith('.ts') ? './source-worker.mjs' : './carry-worker.js';
  const thread = new Worker(new URL(entry, import.meta.url), { workerData: task });
  const [outcome] = (await once(thread, 'message')) as [FileOutcome];
  await thread.terminate();
  if (outcome.kind === 'refused') throw new FileError(outcome.code, outcome.message);
  return outcome.session;
}
