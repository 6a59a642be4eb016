import { Worker } from 'node:worker_threads';
import type { Task } from './messages.ts';

/**
 * Starts one of the store's threads. In the built package this module is part of one bundle, and
 * the threads' entry lies beside the bundle; in a checkout both are TypeScript, which a thread has
 * to be taught to read.
 */
export function startThread(task: Task): Worker {
  const entry = import.meta.url.endsWith('.ts') ? './source-worker.mjs' : './store-worker.js';
  return new Worker(new URL(entry, import.meta.url), { workerData: task });
}
