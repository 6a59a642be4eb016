/** A correction as it is typed, with how well it is known. */
import { describe, expect, it } from 'vitest';
import { prefixFor } from '#core/metrology/format.ts';
import { draftFor, knownWithin, readDraft, type Draft } from '../../../web/correct/correcting.ts';
import { trialOf } from './fixtures.ts';

const trial = trialOf(1, 240);
const shown = {
  trials: [trial, trialOf(2, 250)],
  plan: null,
  prefixes: {
    voltage_V: prefixFor(2),
    current_A: prefixFor(0.1),
    windSpeed_mps: { symbol: '', exponent: 0 },
    power_W: prefixFor(0.2),
  },
} as const;
const read = (part: Partial<Draft>) =>
  readDraft({ ...draftFor(trial, shown.trials, 'voltage_V'), ...part }, trial, shown);

function lineOf(part: Partial<Draft>) {
  const got = read(part);
  if ('fault' in got || got.line === null) throw new Error('it was not understood');
  return got.line;
}

describe('how well a correction is known', () => {
  it('is nothing where nothing is typed', () => {
    expect(lineOf({ truly: '4.6 V' })).toEqual({ gain: 2, offset: 0 });
    expect(knownWithin(lineOf({ truly: '4.6 V' }))).toBeNull();
  });

  it.each([['2 %'], ['2'], ['2,0%'], ['0.092 V'], ['92 mV']])(
    'is limits of a factor, as %s: a rectangle, a/√3 (JCGM 100:2008 (GUM), 4.3.7)',
    (within) => {
      const { knownTo } = lineOf({ truly: '4.6 V', within });
      expect(knownTo).toMatchObject({ of: 'gain', distribution: 'rectangular' });
      expect(knownTo?.standardUncertainty).toBeCloseTo(0.02 / Math.sqrt(3), 12);
    },
  );

  it('is of an amount where all were wrong by the same one', () => {
    const line = lineOf({ truly: '2.5 V', by: 'amount', within: '0.05 V', knownAs: 'standard' });
    expect(line).toMatchObject({
      gain: 1,
      knownTo: { of: 'offset', standardUncertainty: 0.05, distribution: 'normal' },
    });
    expect(knownWithin(line)).toEqual({ amount: 0.05 });
    const percent = lineOf({ truly: '2.5 V', by: 'amount', within: '2 %' });
    expect(knownWithin(percent)).toEqual({ amount: expect.closeTo(0.05, 12) as number });
  });

  it('is asked back at its own field', () => {
    expect(read({ truly: '4.6 V', within: '0' })).toEqual({ fault: { kind: 'not-above-zero' }, at: 'within' });
    expect(read({ truly: '4.6 V', within: '-1 %' })).toMatchObject({ fault: { kind: 'not-above-zero' } });
    expect(read({ truly: '4.6 V', within: '2 A' })).toMatchObject({ fault: { kind: 'unit-unknown' }, at: 'within' });
    expect(read({ truly: 'x', within: '2' })).toMatchObject({ at: 'truly' });
  });

  it('of what was right all along is said too: nothing changes but what is known', () => {
    const line = lineOf({ truly: '2.3 V', within: '1 %' });
    expect(line.gain).toBeCloseTo(1, 12);
    expect(knownWithin(line)).toEqual({ share: expect.closeTo(0.01, 12) as number });
  });
});
