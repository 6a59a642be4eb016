import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A folder of its own that can be thrown away. */
export interface TemporaryFolder {
  readonly path: string;
  remove(): void;
}

/** @param inside a folder that there is, instead of the system's own for such things */
export function temporaryFolder(inside = tmpdir()): TemporaryFolder {
  const path = mkdtempSync(join(inside, 'stillmark-'));
  return {
    path,
    // A database of this process may be held open a moment longer, which Windows minds.
    remove: () => rmSync(path, { recursive: true, force: true, maxRetries: 3 }),
  };
}
