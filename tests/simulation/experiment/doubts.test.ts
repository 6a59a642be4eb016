/** What is pointed at in experiments whose truth is known, looked at after every trial. */
import { describe, expect, it } from 'vitest';
import type { Doubt } from '#core/experiment/view.ts';
import { CONFIGURATIONS } from '../../bench/doubts/configurations.ts';
import { everDoubted, type Fault } from '../../bench/doubts/experiment.ts';
import { chanceOfSoFew } from '../choosing/binomial.ts';

const EXPERIMENTS = 200;
const KINDS = ['far-from-others', 'wind-drift', 'power-drift'] as const;
const PLAIN = CONFIGURATIONS.find(({ name }) => name === '5 levels, 3 rounds, scatter 3 %')!;

function count(faultOf: (seed: number) => Fault, isMeant: (doubt: Doubt, fault: Fault) => boolean): number {
  let met = 0;
  for (let seed = 1; seed <= EXPERIMENTS; seed += 1) {
    const fault = faultOf(seed);
    if (everDoubted(PLAIN, fault, seed).some((doubt) => isMeant(doubt, fault))) met += 1;
  }
  return met;
}

describe('doubts', () => {
  it('are raised in fewer than 5 of 100 experiments with nothing wrong, each kind', () => {
    for (const kind of KINDS) {
      const alarms = count(() => ({}), (doubt) => doubt.kind === kind);
      // Were the share 5 %, so few would be seen in fewer than 5 of 100 such tests.
      expect(chanceOfSoFew(alarms, EXPERIMENTS, 0.05), kind).toBeLessThan(0.05);
    }
  });

  it('find a setting that was one level off in most experiments, wind and power that fell in nearly all', () => {
    const slipped = count(
      (seed) => ({ slippedTrial: 2 + (seed % 18) }),
      ({ kind, trialId }, { slippedTrial }) => kind === 'far-from-others' && trialId === slippedTrial,
    );
    expect(slipped).toBeGreaterThan(0.5 * EXPERIMENTS);
    const wind = { wind: { from: 10, share: 0.9 } };
    const moved = count(() => wind, ({ kind, trialId }) => kind === 'wind-drift' && trialId >= 10);
    expect(moved).toBeGreaterThan(0.95 * EXPERIMENTS);
    const faded = count(() => ({ fading: 0.2 }), ({ kind, share }) => kind === 'power-drift' && share < 0);
    expect(faded).toBeGreaterThan(0.95 * EXPERIMENTS);
  });
});
