import { describe, expect, it } from 'vitest';
import { findCycle, CYCLE_WINDOW_S } from '#core/signal/settling/cycle.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

const PERIOD_S = 0.2;
const COUNT = Math.round(CYCLE_WINDOW_S / PERIOD_S);
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

/** A drive of level one with gusts, and with a swing whose rise is steeper than its fall. */
function driveWith(swing: number, lean: number, seed: number): number[] {
  const random = createRandom(seed);
  const deviation = GUSTS / Math.sqrt(PERIOD_S);
  return Array.from({ length: COUNT }, (_, i) => {
    const phase = (2 * Math.PI * i * PERIOD_S) / 4.5;
    const cycle = swing * Math.sin(phase + lean * Math.sin(phase));
    return 1 + cycle + deviation * normal(random);
  });
}

function countFound(swing: number, lean: number): number {
  let found = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const drive = driveWith(swing, lean, seed);
    if (findCycle({ drive, period_s: PERIOD_S, lag_s: 0.8, noise, contrast: 4 })) found++;
  }
  return found;
}

describe('a cycle', () => {
  it('is seen whether it is even or lopsided', () => {
    expect(countFound(0.1, 0)).toBeGreaterThan(95);
    expect(countFound(0.1, 1.2)).toBeGreaterThan(95);
  });

  it('is not seen in gusts alone', () => {
    expect(countFound(0, 0)).toBeLessThan(2);
  });
});
