/** Entry of the store's threads: the one that writes, and short-lived ones that check and copy. */
import { parentPort, workerData, type MessagePort } from 'node:worker_threads';
import { dataFiles } from './data-folder.ts';
import { StoreError } from './errors.ts';
import type { Call, Task, Told, UpkeepOutcome } from './messages.ts';
import { openFolder } from './open-folder.ts';
import { checkRows, makeCopy } from './upkeep.ts';
import { createWriter, type Writer } from './writer.ts';

if (parentPort !== null) run(parentPort, workerData as Task);

function run(port: MessagePort, { role, dataFolder }: Task): void {
  if (role === 'write') {
    serve(dataFolder, (told) => port.postMessage(told), port);
    return;
  }
  const files = dataFiles(dataFolder);
  const outcome: UpkeepOutcome = { problems: role === 'check' ? checkRows(files) : makeCopy(files) };
  port.postMessage(outcome);
}

type Tell = (told: Told) => void;

function serve(dataFolder: string, tell: Tell, port: MessagePort): void {
  const writer = openWriter(dataFolder, tell);
  if (writer === null) return;
  port.on('message', (call: Call) => void answer(writer, call, tell));
  tell({ kind: 'open' });
}

function openWriter(dataFolder: string, tell: Tell): Writer | null {
  try {
    return createWriter(dataFiles(dataFolder), openFolder, {
      state: (state) => tell({ kind: 'state', state }),
      problems: (problems) => tell({ kind: 'problems', problems }),
    });
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    tell({ kind: 'not-open', code: error.code, message: error.message });
    return null;
  }
}

/** A failure that is no `StoreError` is left to end the thread: the main thread tells of it. */
async function answer(writer: Writer, { id, method, parameters }: Call, tell: Tell): Promise<void> {
  const call = writer[method] as (...parameters: readonly unknown[]) => Promise<unknown>;
  try {
    tell({ kind: 'done', id, value: await call(...parameters) });
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    tell({ kind: 'refused', id, code: error.code, message: error.message });
  }
}
