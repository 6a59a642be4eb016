/** A stored recording gives the same trials as on the day it was made. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { TrialSchema, type Trial } from '#core/experiment/trial.ts';
import { compareTrials } from '../../server/commands/replay-differences.ts';
import { decodeInputs } from '../../server/store/input-codec.ts';
import { deriveTrials, recordInputs } from './session.ts';

const read = (name: string): Buffer => readFileSync(join(import.meta.dirname, name));
const stored: Trial[] = z.array(TrialSchema).parse(JSON.parse(read('trials.json').toString()));

describe('the golden session', () => {
  const inputs = decodeInputs(read('session.inputs'));

  it('derives to the stored trials, interrupted ones included', () => {
    // Another engine may round elementary functions otherwise: agreement within 1e-12.
    expect(compareTrials(stored, deriveTrials(inputs), false)).toEqual([]);
    expect(new Set(stored.map(({ state }) => state))).toEqual(new Set(['logged', 'final', 'interrupted']));
  });

  it('derives identically to the last bit when done again', () => {
    expect(compareTrials(deriveTrials(inputs), deriveTrials(inputs), true)).toEqual([]);
  });

  it('stored by an earlier version, which kept no gusts, differs in nothing; stored by this one it does', () => {
    const earlier = stored.map(({ windGusts, ...trial }) => {
      expect(windGusts).toBeDefined();
      return trial;
    });
    expect(compareTrials(earlier, stored, false)).toEqual([]);
    expect(compareTrials(earlier, stored, true)[0]).toMatchObject({ field: 'windGusts.meanCube_m3ps3' });
  });

  it('is what the simulated rig still sends', () => {
    expect(recordInputs()).toEqual(inputs);
  });

  it('notices a difference', () => {
    const other = stored.map((trial, index) =>
      index === 0 && trial.power_W ? { ...trial, power_W: { ...trial.power_W, value: trial.power_W.value * (1 + 1e-9) } } : trial,
    );
    expect(compareTrials(stored, other, false)).toMatchObject([{ trialId: 1, revision: 1, field: 'power_W.value' }]);
    expect(compareTrials(stored, stored.slice(1), false)).toMatchObject([{ field: 'trial', derived: 'missing' }]);
  });
});
