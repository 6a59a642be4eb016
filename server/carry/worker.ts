/** Entry of the thread that writes and reads sessions' files: one task, one answer. */
import { parentPort, workerData } from 'node:worker_threads';
import { openStoreReader } from '../store/reader.ts';
import type { SessionInfo } from '../store/store.ts';
import { FileError } from './errors.ts';
import { packageTarget } from './package-target.ts';
import type { FileOutcome, FileTask } from './tasks.ts';
import { unpackSession } from './unpack.ts';
import { writePackage } from './write-package.ts';

if (parentPort !== null) parentPort.postMessage(outcomeOf(workerData as FileTask));

/** Anything but a `FileError` ends the thread: the main thread tells of it. */
function outcomeOf(task: FileTask): FileOutcome {
  try {
    return { kind: 'done', session: carryOut(task) };
  } catch (error) {
    if (!(error instanceof FileError)) throw error;
    return { kind: 'refused', code: error.code, message: error.message };
  }
}

function carryOut(task: FileTask): SessionInfo {
  if (task.kind === 'unpack') return unpackSession(task.file, task.stageFolder);
  const reader = openStoreReader(task.dataFolder);
  try {
    const session = reader.sessions().find(({ id }) => id === task.sessionId);
    if (session === undefined) throw new Error(`session ${task.sessionId} is gone`);
    writePackage(reader, session, packageTarget(task.to), { program: task.program, licence: null });
    return session;
  } finally {
    reader.close();
  }
}
