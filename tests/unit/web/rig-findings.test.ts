/** Every finding is said in every language: what was seen, why it matters, what to do. */
import { describe, expect, it } from 'vitest';
import { FINDING_KINDS, type Finding } from '#core/rig-check/finding.ts';
import { WATCHED } from '#core/rig-check/seconds.ts';
import { shownFinding } from '../../../web/model/rig-findings.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';

const WHOLE_RIG: readonly string[] = ['needs-flick', 'wind-past-rotor', 'wind-changed', 'beyond-wind'];

describe.each(Object.entries(CATALOGUES))('in %s', (_, words) => {
  it.each(FINDING_KINDS)('%s', (kind) => {
    for (const channel of WHOLE_RIG.includes(kind) ? [null] : WATCHED) {
      const finding: Finding = { kind, channel, value: 0.0123, trialId: null };
      const { seen, why, todo } = shownFinding(finding, words);
      for (const sentence of [seen, why, todo]) expect(sentence).toMatch(/^\S.*[.?]$/);
      expect(seen).not.toMatch(/undefined|NaN/);
    }
  });
});
