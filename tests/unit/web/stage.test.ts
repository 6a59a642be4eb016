import { describe, expect, it } from 'vitest';
import type { Status } from '#core/live-messages.ts';
import { shownThreads, stageOf, type Judgement, type Stage } from '../../../web/model/stage.ts';
import { ATTACHED_BOARD, statusOf } from '../../support/status.ts';
import { factsOf, judgementOf, plateauOf, slicesOf, trialOf } from './fixtures.ts';

const ramp = (from: number, to: number): number[] =>
  Array.from({ length: 24 }, (_, i) => from + ((to - from) * i) / 23);
const moving = (powers: number[], more: Partial<Judgement> = {}): Judgement =>
  judgementOf({ phase: 'moving', threads: slicesOf(powers, false), ...more });
const stageFor = (judgement: Judgement, more = {}): Stage =>
  stageOf(factsOf({ judgement, ...more }));

describe('the link comes first', () => {
  const refused: Status['port'] = {
    phase: 'refused',
    board: ATTACHED_BOARD,
    code: 'busy',
    message: 'in use',
  };
  it.each<[Stage, Partial<Status>]>([
    ['no-board', { port: { phase: 'searching' }, health: 'closed' }],
    ['starting', { port: { phase: 'opening', board: ATTACHED_BOARD }, health: 'closed' }],
    ['starting', { health: 'starting' }],
    ['unplugged', { port: { phase: 'unplugged', board: ATTACHED_BOARD }, health: 'closed' }],
    ['refused', { port: refused, health: 'closed' }],
    ['ended', { port: { phase: 'ended' }, health: 'closed' }],
    ['silent', { health: 'silent' }],
    ['unreadable', { health: 'unreadable' }],
    ['unmapped', { health: 'unmapped' }],
  ])('%s', (stage, status) => {
    // Even though the newest judgement says settled and a trial is logged.
    const judgement = judgementOf({ phase: 'settled' });
    expect(
      stageOf(factsOf({ status: statusOf(status), judgement, loggedTrial: trialOf(1, 240) })),
    ).toBe(stage);
  });
  it('is nothing but the news when there is none', () => {
    expect(stageOf(factsOf({ news: 'no-news' }))).toBe('no-news');
    expect(stageOf(factsOf({ news: 'connecting', status: null }))).toBe('connecting');
  });
});

describe('the page never runs ahead of the program', () => {
  it('says still only when the detector says settled', () => {
    expect(stageFor(judgementOf({ phase: 'settling' }))).toBe('hold');
    expect(stageFor(judgementOf({ phase: 'settled' }))).toBe('still');
  });
  it('says logged only with a trial from the store, and only while it is settled', () => {
    const loggedTrial = trialOf(9, 243, { state: 'logged' });
    expect(stageFor(judgementOf({ phase: 'settled' }), { loggedTrial })).toBe('logged');
    expect(stageFor(judgementOf({ phase: 'settling' }), { loggedTrial })).not.toBe('logged');
  });
});

describe('where power is heading', () => {
  it('tells spinning up from running down by the slices', () => {
    expect(stageFor(moving(ramp(0, 0.2)))).toBe('spinning-up');
    expect(stageFor(moving(ramp(0.24, 0.05), { channels: [] }))).toBe('running-down');
    expect(stageFor(moving(ramp(0.2, 0.22)))).toBe('moving');
  });
  it('sees a stop in a window that is still short, by the voltage', () => {
    const channels: Judgement['channels'] = [
      { channel: 'voltage_V', motion: 'falling', level: 2, slope_per_s: -0.7 },
    ];
    expect(stageFor(moving([0.2, 0.19], { channels }))).toBe('running-down');
    expect(
      stageFor(
        moving([0.2, 0.21], {
          channels: [{ ...channels[0]!, motion: 'rising', slope_per_s: 0.7 }],
        }),
      ),
    ).toBe('spinning-up');
  });
  it('takes power that falls for a stop only where the wind does not blow on', () => {
    const wind = (motion: 'falling' | 'still', level: number): Judgement['channels'] => [
      { channel: 'windSpeed_mps', motion, level, slope_per_s: motion === 'still' ? 0 : -1 },
    ];
    const fallen = (channels: Judgement['channels']) => stageFor(moving(ramp(0.24, 0.05), { channels }));
    expect(fallen(wind('still', 4))).toBe('moving');
    expect(fallen(wind('falling', 3))).toBe('running-down');
    expect(fallen(wind('still', 0.1))).toBe('running-down');
  });
  it('goes by the wind while the rotor as good as stands', () => {
    const wind = (motion: 'rising' | 'falling' | 'still'): Judgement['channels'] => [
      { channel: 'windSpeed_mps', motion, level: 1, slope_per_s: 1 },
    ];
    expect(stageFor(moving(ramp(0.0002, 0.001), { channels: wind('rising') }))).toBe('spinning-up');
    expect(stageFor(moving(ramp(0.0002, 0.001), { channels: wind('falling') }))).toBe(
      'running-down',
    );
    expect(stageFor(moving(ramp(0.0002, 0.001), { channels: wind('still') }))).toBe('waiting');
  });
  it('calls it almost still once half of the threads lie together', () => {
    const threads = [
      ...slicesOf(Array<number>(10).fill(0.22), false),
      ...slicesOf(Array<number>(14).fill(0.24), true),
    ];
    expect(stageFor(judgementOf({ phase: 'moving', threads }))).toBe('settling');
    expect(stageFor(judgementOf({ phase: 'settling', threads }))).toBe('settling');
  });
});

describe('a bump', () => {
  const bumped = judgementOf({ phase: 'moving', threads: slicesOf(ramp(0.24, 0.2), false) });
  const broken = { lastClosed: plateauOf({ end_s: 95 }), leastSinceClosed_W: 0.2 };
  it('is a stretch broken before it was logged while the wind blows on', () => {
    expect(stageFor(bumped, broken)).toBe('disturbed');
  });
  it.each([
    ['the trial had been logged', { ...broken, lastClosed: plateauOf({ end_s: 92, trialId: 4 }) }],
    [
      'the stretch was cut off by the link',
      { ...broken, lastClosed: plateauOf({ end_s: 95, endReason: 'interrupted' as const }) },
    ],
    ['it was long ago', { ...broken, lastClosed: plateauOf({ end_s: 70 }) }],
    ['the rotor has stood since', { ...broken, leastSinceClosed_W: 0.01 }],
    ['the page has not watched since', { ...broken, leastSinceClosed_W: null }],
  ])('is none when %s', (_why, facts) => {
    expect(stageFor(bumped, facts)).toBe('moving');
  });
});

describe('after a trial', () => {
  it('takes the change for the fan being stopped, until it has gone on for too long', () => {
    const judgement = judgementOf({ phase: 'settling' });
    expect(stageFor(judgement, { lastClosed: plateauOf({ end_s: 97, trialId: 4 }) })).toBe(
      'running-down',
    );
    expect(stageFor(judgement, { lastClosed: plateauOf({ end_s: 90, trialId: 4 }) })).toBe('hold');
    expect(
      stageFor(moving(ramp(0, 0.2)), { lastClosed: plateauOf({ end_s: 97, trialId: 4 }) }),
    ).toBe('spinning-up');
  });
});

describe('shownThreads', () => {
  it('shows no cord while power changes at large or will not settle', () => {
    const judgement = judgementOf();
    for (const stage of ['spinning-up', 'running-down', 'unsettled'] as const) {
      expect(shownThreads(stage, judgement).some(({ joined }) => joined)).toBe(false);
    }
    expect(shownThreads('settling', judgement)).toBe(judgement.threads);
  });
});
