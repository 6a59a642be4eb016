/**
 * Suites that need more than Node say so by name: where it is missing they are counted as skipped,
 * and in CI (environment variable CI) they fail, so that nothing is left out unseen.
 */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, it } from 'vitest';

export interface Need {
  /** What was found; null when it is missing. */
  readonly path: string | null;
  /** As vitest's `describe`, when it is there. */
  describe(name: string, suite: () => void): void;
}

/** Serial ports without hardware: pairs of pseudo-terminals. */
export function needsSocat(): Need {
  return needs(['socat'], 'socat is not installed (Debian: apt-get install socat)');
}

/** A browser without a screen. CHROMIUM_PATH names one that is not on the PATH. */
export function needsChromium(): Need {
  const named = process.env['CHROMIUM_PATH'];
  const commands = named === undefined ? ['chromium', 'chromium-browser'] : [named];
  return needs(commands, 'chromium is not installed (Debian: apt-get install chromium)');
}

function needs(commands: readonly string[], missing: string): Need {
  const path = commands.map(findOnPath).find((found) => found !== null) ?? null;
  return {
    path,
    describe(name, suite) {
      if (path !== null) {
        describe(name, suite);
      } else if (process.env['CI']) {
        describe(name, () => it('can run', () => fail(missing)));
      } else {
        console.warn(`Left out: ${name}, because ${missing}.`);
        describe.skipIf(path === null)(name, suite);
      }
    },
  };
}

function fail(missing: string): never {
  throw new Error(`${missing}, and in CI no suite may be left out`);
}

function findOnPath(command: string): string | null {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  const candidates = command.includes('/') ? [command] : folders.map((folder) => join(folder, command));
  return candidates.find(isExecutable) ?? null;
}

function isExecutable(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
