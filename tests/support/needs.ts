/**
 * Suites that need more than Node say so by name: where it is missing they are counted as skipped,
 * and in CI (environment variable CI) they fail, so that nothing is left out unseen.
 */
import { describe, it } from 'vitest';
import { findFirst, howToInstall, missingOf, SYSTEM_NEEDS, type SystemNeed } from './system-needs.mjs';

export interface Need {
  /** The first thing looked for; null when it is missing. */
  readonly path: string | null;
  /** As vitest's `describe`, when everything is there. */
  describe(name: string, suite: () => void): void;
}

/** Serial ports without hardware: pairs of pseudo-terminals. */
export function needsSocat(): Need {
  return needs(SYSTEM_NEEDS.socat);
}

/** A browser without a screen. CHROMIUM_PATH names one that is not on the PATH. */
export function needsChromium(): Need {
  const named = process.env['CHROMIUM_PATH'];
  const need = SYSTEM_NEEDS.chromium;
  return needs(named === undefined ? need : { ...need, lookFor: [[named]] });
}

/** Compilers for a board and for this computer, and an emulated microcontroller. */
export function needsFirmwareTools(): Need {
  return needs(SYSTEM_NEEDS.firmware);
}

function needs(need: SystemNeed): Need {
  const missing = missingOf(need);
  const reason = `${missing.join(', ')} ${missing.length === 1 ? 'is' : 'are'} not installed (Debian: ${howToInstall(need)})`;
  return {
    path: findFirst(need.lookFor[0] ?? []),
    describe(name, suite) {
      if (missing.length === 0) {
        describe(name, suite);
      } else if (process.env['CI']) {
        describe(name, () => it('can run', () => fail(reason)));
      } else {
        console.warn(`Left out: ${name}, because ${reason}.`);
        describe.skipIf(missing.length > 0)(name, suite);
      }
    },
  };
}

function fail(reason: string): never {
  throw new Error(`${reason}, and in CI no suite may be left out`);
}
