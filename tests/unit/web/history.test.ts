/** What a trial was logged as, and what became of it. */
import { describe, expect, it } from 'vitest';
import { historyLines } from '../../../web/model/history.ts';
import { en } from '../../../web/words/en.ts';
import { trialOf } from './fixtures.ts';

const PREFIXES = { power_W: { symbol: 'm', exponent: -3 } } as const;
const measured = (value: number, standardUncertainty: number) => ({ value, standardUncertainty, degreesOfFreedom: 1e6 });
const linesOf = (...revisions: ReturnType<typeof trialOf>[]) =>
  historyLines(revisions, PREFIXES, en).map((line) => line.replaceAll(/[\u2009\u202f]/g, ' '));

const LOGGED = trialOf(9, 243, { state: 'logged', start_s: 10, end_s: 20, power_W: measured(0.243, 0.0025) });
const FINAL = trialOf(9, 242, { revision: 2, start_s: 9, end_s: 34, power_W: measured(0.2418, 0.0016) });

describe('the history of a trial', () => {
  it('has the value that was logged beside the one that it was refined to', () => {
    expect(linesOf(LOGGED, FINAL)).toEqual([
      '243 ± 5 mW · over 10 s · as logged',
      '242 ± 3 mW · over 25 s · when the stretch had ended',
    ]);
  });

  it('tells what people did to it', () => {
    const struck = { ...FINAL, revision: 3, struck: true, strikeReason: 'Table bumped.' };
    expect(linesOf(LOGGED, FINAL, struck)[2]).toMatch(/^242 ± 3 mW · over 25 s · struck.*Table bumped\.$/);
  });

  it('is none where nothing has become of it', () => {
    expect(linesOf(LOGGED)).toEqual([]);
  });
});
