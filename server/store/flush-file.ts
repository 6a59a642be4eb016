import { closeSync, fsyncSync, openSync } from 'node:fs';

/** Makes sure that a file's content is on disk. Never for a file that SQLite has open: see lock.ts. */
export function flushFile(path: string): void {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
