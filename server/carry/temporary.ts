import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A folder of its own that can be thrown away. */
export interface TemporaryFolder {
  readonly path: string;
  remove(): void;
}

export function temporaryFolder(): TemporaryFolder {
  const path = mkdtempSync(join(tmpdir(), 'stillmark-'));
  return {
    path,
    // A database of this process may be held open a moment longer, which Windows minds.
    remove: () => rmSync(path, { recursive: true, force: true, maxRetries: 3 }),
  };
}
