import { describe, expect, it } from 'vitest';
import { doubtsOf } from '#core/experiment/doubts/doubts.ts';
import { STRIKE_REASONS } from '#core/experiment/strike-reasons.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { NO_EXPERIMENT } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import { en } from '../../../web/words/en.ts';
import { sessionPrefixes, livePlace } from '../../../web/model/quantities.ts';
import { channelReading, powerReading } from '../../../web/model/reading.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';
import type { Catalogue } from '../../../web/words/catalogue.ts';
import { sentenceNow } from '../../../web/model/sentence-now.ts';
import { sentenceOf } from '../../../web/model/sentence.ts';
import { stateWords } from '../../../web/model/trial-words.ts';
import { changeWords, wordsOf, type Spoken } from '../../../web/model/words.ts';
import { statusOf } from '../../support/status.ts';
import { judgementOf, slicesOf, trialOf } from './fixtures.ts';

const NOTHING = { voltage_V: 0, current_A: 0, windSpeed_mps: 0, power_W: 0 };
const prefixes = sessionPrefixes([trialOf(1, 240)], NOTHING);
const MILLI = prefixes.power_W;
/** Thin spaces as plain ones. */
const plain = (text: string): string => text.replaceAll('\u202f', ' ');
/** Three levels in three rounds: the fifth was set wrongly, which only the eighth can tell. */
const SLIPPED = [100, 200, 300, 101, 220, 301, 99, 201, 302].map((power_mW, i) => {
  const [round, angle_deg] = [Math.floor(i / 3) + 1, 10 * ((i % 3) + 1)];
  return trialOf(i + 1, power_mW, { runId: `r${round} angle_deg=${angle_deg}`, factors: { angle_deg } });
});
const spoken = (more: Partial<Spoken>): Spoken => ({
  words: en,
  experiment: NO_EXPERIMENT,
  stage: 'settling',
  status: statusOf(),
  judgement: judgementOf(),
  newest: trialOf(8, 243),
  trials: SLIPPED,
  stretch_s: 4,
  usual_s: null,
  prefixes,
  quiet_s: 4,
  ...more,
});

describe('prefixes', () => {
  it('are one for each quantity through a session, from its largest trial', () => {
    expect(MILLI.symbol).toBe('m');
    expect(sessionPrefixes([trialOf(1, 240), trialOf(2, 1300)], NOTHING).power_W.symbol).toBe('');
    expect(sessionPrefixes([trialOf(1, 0.2)], NOTHING).power_W.symbol).toBe('µ');
    expect(prefixes.windSpeed_mps.symbol).toBe('');
  });
  it('are usual ones before the first trial', () => {
    expect(sessionPrefixes([], NOTHING)).toMatchObject({
      voltage_V: { symbol: '' },
      current_A: { symbol: 'm' },
      power_W: { symbol: 'm' },
    });
  });
});

describe('livePlace', () => {
  it('gives three digits of the axis, or fewer when the newest trial supports fewer', () => {
    expect(livePlace('power_W', { axisHigh: 0.3, prefix: MILLI, newest: undefined })).toBe(0);
    expect(livePlace('power_W', { axisHigh: 0.02, prefix: MILLI, newest: undefined })).toBe(-1);
    expect(livePlace('power_W', { axisHigh: 0.02, prefix: MILLI, newest: trialOf(1, 240) })).toBe(
      0,
    );
    expect(
      livePlace('windSpeed_mps', {
        axisHigh: 6,
        prefix: prefixes.windSpeed_mps,
        newest: undefined,
      }),
    ).toBe(-1);
  });
});

describe('words', () => {
  it('tells what still moves, with numbers', () => {
    const judgement = judgementOf({
      threads: [
        ...slicesOf(Array<number>(7).fill(0.2), false),
        ...slicesOf(Array<number>(17).fill(0.24), true),
      ],
      channels: [{ channel: 'current_A', motion: 'rising', level: 0.105, slope_per_s: 0.0001 }],
    });
    expect(plain(wordsOf(spoken({ judgement })).moving)).toBe(
      '7 of 24 threads loose. Current still rises: 1 mA in 10 s.',
    );
  });
  it('counts down while all threads are joined', () => {
    const judgement = judgementOf({ remaining_s: 2.2 });
    expect(plain(wordsOf(spoken({ stage: 'hold', judgement })).moving)).toBe(
      'All threads joined. 3 s left.',
    );
  });
  it('say instead what is doubtful about the trial just logged', () => {
    const doubt = { trialId: 8, kind: 'power-drift', message: '', share: 0.07 } as const;
    const about = (more: Partial<Spoken>) => {
      const experiment = { ...NO_EXPERIMENT, doubts: [doubt] };
      return plain(wordsOf(spoken({ stage: 'logged', experiment, ...more })).detail);
    };
    const up = 'Up to trial 8, power at the same settings has risen by 7 %. Something has changed.';
    expect(about({})).toBe(up);
    expect(about({ stage: 'running-down' })).toBe(up);
    const fallen = { ...NO_EXPERIMENT, doubts: [{ ...doubt, share: -0.07 }] };
    expect(about({ experiment: fallen })).toBe(up.replace('risen', 'fallen'));
  });
  it('say also what it brings to light of an older trial, and that once', () => {
    const doubts = doubtsOf(SLIPPED.slice(0, 8));
    expect(doubts.map(({ trialId }) => trialId)).toEqual([5]);
    const at = (place: number) => {
      const experiment = { ...NO_EXPERIMENT, doubts };
      return plain(wordsOf(spoken({ stage: 'logged', experiment, newest: SLIPPED[place]! })).detail);
    };
    expect(at(7)).toBe('Trial 5 lies 10 % away from its repeats. Was the setting right?');
    expect(at(8)).toMatch(/^Trial 9, 302/);
  });
  it('says so of what is keyed in while the board is unplugged', () => {
    const detail = (origin: TrialView['origin']) =>
      plain(wordsOf(spoken({ stage: 'unplugged', newest: trialOf(8, 243, { origin }) })).detail);
    expect(detail('keyed')).toMatch(/^Trial 8, 243 ± 5 mW, was saved at/);
    expect(detail('board')).toMatch(/^What was logged is safe/);
  });
  it('says what was saved, and when', () => {
    expect(plain(wordsOf(spoken({ stage: 'logged' })).detail)).toMatch(
      /^Trial 8, 243 ± 5 mW, was saved at \d\d:02:31\.$/,
    );
  });
  it('calls a rotor that did not turn a result', () => {
    const newest = trialOf(8, 0, { rotorStill: true });
    const said = wordsOf(spoken({ stage: 'logged', newest }));
    expect(said.detail).toMatch(/^Trial 8: it did not turn\. Saved at/);
    // No blades to wait for.
    expect(said.moving).toBe('Now stop the fan.');
    expect(wordsOf(spoken({ stage: 'logged', newest })).lines).toEqual([
      'Logged. It',
      'did not turn.',
    ]);
  });
  it('does not promise to log while saving has stopped', () => {
    const status = statusOf({ store: { ok: false, message: 'The disk is full.' } });
    expect(wordsOf(spoken({ stage: 'still', status })).moving).toContain('Not logged');
  });
  it('speaks of one second where ten would say nothing', () => {
    expect(plain(changeWords('voltage_V', { level: 1.4, slope_per_s: 0.48 }, prefixes, en))).toBe(
      '0.5 V in 1 s',
    );
    expect(plain(changeWords('voltage_V', { level: 2.3, slope_per_s: -0.002 }, prefixes, en))).toBe(
      '0.02 V in 10 s',
    );
  });
});

describe('the sentence', () => {
  const said = (...trials: ReturnType<typeof trialOf>[]): string =>
    plain(sentenceOf(trials, MILLI, en).said);
  it('claims nothing without trials, and little with one', () => {
    expect(said()).toBe('Nothing logged yet.');
    expect(said(trialOf(1, 243))).toBe('One trial so far: 243 ± 5 mW.');
  });
  it('does not ask for a plan where there is one, of whose runs none is done', () => {
    const experiment = { ...NO_EXPERIMENT, plan: anglePlan(1) };
    const rest = { answer: null, prefix: MILLI, stage: 'waiting', words: en } as const;
    expect(sentenceNow({ experiment, trials: [trialOf(1, 243), trialOf(2, 250)], ...rest }).small).toBe(
      'No trial belongs to this plan yet.',
    );
    expect(sentenceNow({ experiment, trials: [], ...rest }).said).toBe('Nothing logged yet.');
  });
  it('says in the list how a trial that had not settled came about', () => {
    const state = (basis: TrialView['basis']) => stateWords(trialOf(1, 243, { basis }), en.top.list);
    expect([state('settled'), state('average'), state('window')]).toEqual(['', 'average, not still', 'logged by hand']);
  });
  it('says in the page’s language why the program struck a trial, and people’s reasons as they stand', () => {
    const struck = (strikeReason: string, { top }: Catalogue) =>
      stateWords(trialOf(1, 243, { struck: true, strikeReason }), top.list);
    expect(struck(STRIKE_REASONS.byButton, en)).toBe('struck: by button');
    expect(struck('Table bumped.', CATALOGUES.de)).toBe('gestrichen: Table bumped.');
    for (const reason of Object.values(STRIKE_REASONS)) {
      const all = Object.values(CATALOGUES).map((words) => struck(reason, words));
      expect(all.join()).not.toContain(reason);
      expect(new Set(all).size).toBe(4);
    }
  });
  it('does not say that nothing is logged where it is, but does not count, and why', () => {
    const without = (more: Partial<TrialView>) => sentenceOf([trialOf(1, 243, more)], MILLI, en);
    expect(without({ power_W: null })).toEqual({
      said: 'No trial counts yet.',
      small: 'The newest has no power: that takes voltage and current.',
    });
    expect(without({ struck: true }).small).toBe('The newest is struck.');
    expect(without({ recorded: false, state: 'interrupted' }).small).toMatch(/cut off too soon/);
  });
  it('gives count and range, to the coarser place, and leaves out what is struck or cut off', () => {
    const struck = trialOf(3, 400, { struck: true });
    const cut = trialOf(4, 500, { recorded: false, state: 'interrupted' });
    expect(said(trialOf(1, 96.4), trialOf(2, 259), struck, cut)).toBe(
      '2 trials so far, from 96 to 259 mW.',
    );
    expect(sentenceOf([trialOf(1, 96), struck], MILLI, en).said).not.toContain('400');
  });
  it('never names a best', () => {
    for (const { said: text, small } of [sentenceOf([trialOf(1, 96), trialOf(2, 259)], MILLI, en)]) {
      expect(`${text} ${small}`).not.toMatch(/gives the most|leads|winner/);
      expect(small).toContain('can’t be told');
    }
  });
});

describe('figures', () => {
  const asked = {
    judgement: judgementOf(),
    loggedTrial: null,
    prefix: MILLI,
    place: 0,
    levels: [0.24],
  };
  const heavy = (still: readonly boolean[]): string =>
    still.map((one) => (one ? '1' : '0')).join('');
  it('are the logged result, all heavy', () => {
    const loggedTrial = trialOf(9, 243);
    const reading = powerReading({ ...asked, stage: 'logged', loggedTrial });
    expect([reading.text, heavy(reading.still), reading.uncertainty]).toEqual(['243', '111', '5']);
  });
  it('leave the last digit hairline until settled', () => {
    expect(heavy(powerReading({ ...asked, stage: 'hold' }).still)).toBe('110');
    expect(heavy(powerReading({ ...asked, stage: 'still' }).still)).toMatch(/^1+$/);
  });
  it('give no uncertainty while power changes at large', () => {
    expect(powerReading({ ...asked, stage: 'spinning-up' }).uncertainty).toBeNull();
  });
  it.each([
    'unplugged',
    'silent',
    'no-news',
    'refused',
    'starting',
    'no-board',
    'unreadable',
  ] as const)('show no number that looks alive when %s', (stage) => {
    expect(powerReading({ ...asked, stage, loggedTrial: trialOf(9, 243) }).text).toBe('–––');
    const channel = { levels: [2.3], isStill: true, prefix: prefixes.voltage_V, place: -2 };
    expect(channelReading({ ...channel, stage }).text).toBe('–');
  });
  it('fall back on the samples while the detector has no slices, and on nothing without them', () => {
    const judgement = judgementOf({ threads: [], power_W: null });
    expect(powerReading({ ...asked, stage: 'waiting', judgement }).text).toBe('240');
    expect(powerReading({ ...asked, stage: 'waiting', judgement, levels: [] }).text).toBe('–––');
  });
});
