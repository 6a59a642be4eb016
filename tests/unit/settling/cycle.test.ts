import { describe, expect, it } from 'vitest';
import {
  CYCLE_WINDOW_S,
  findCycle,
  SHORTEST_CYCLE_WINDOW_S,
} from '#core/signal/settling/cycle.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

const PERIOD_S = 0.2;
/** Long-run variance of gusts of 1.2 % of the level times √s, well known. */
const GUSTS = 0.012;
const noise = {
  logLevel: 2 * Math.log(GUSTS),
  logLevelVariance: 0.05,
  time_s: 0.15,
  whiteShare: 0.003,
  raise_s: 5,
  ownEvidence: 0,
};

/** A swing whose rise is steeper than its fall. */
interface Swing {
  readonly swing: number;
  readonly lean?: number;
  readonly length_s?: number;
}

/** A drive of level one with gusts and such a swing. */
function driveWith(
  { swing, lean = 0, length_s = CYCLE_WINDOW_S }: Swing,
  seed: number,
): number[] {
  const random = createRandom(seed);
  const deviation = GUSTS / Math.sqrt(PERIOD_S);
  return Array.from({ length: Math.round(length_s / PERIOD_S) }, (_, i) => {
    const phase = (2 * Math.PI * i * PERIOD_S) / 4.5;
    const cycle = swing * Math.sin(phase + lean * Math.sin(phase));
    return 1 + cycle + deviation * normal(random);
  });
}

function countFound(swing: Swing): number {
  let found = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const drive = driveWith(swing, seed);
    if (findCycle({ drive, period_s: PERIOD_S, lag_s: 0.8, noise, contrast: 4 })) found++;
  }
  return found;
}

describe('a cycle', () => {
  it('is seen whether it is even or lopsided', () => {
    expect(countFound({ swing: 0.1 })).toBeGreaterThan(95);
    expect(countFound({ swing: 0.1, lean: 1.2 })).toBeGreaterThan(95);
  });

  it('is seen where a window holds little more than one period of it', () => {
    expect(countFound({ swing: 0.1, length_s: 1.1 * SHORTEST_CYCLE_WINDOW_S })).toBeGreaterThan(95);
  });

  it('is not seen in gusts alone, however long the window', () => {
    expect(countFound({ swing: 0 })).toBeLessThan(2);
    expect(countFound({ swing: 0, length_s: SHORTEST_CYCLE_WINDOW_S })).toBeLessThan(2);
  });
});
