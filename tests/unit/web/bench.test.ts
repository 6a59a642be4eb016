import { describe, expect, it } from 'vitest';
import { NO_EXPERIMENT } from '#core/experiment/view.ts';
import type { LiveMessage, Samples } from '#core/live-messages.ts';
import { createBench, stretchLength_s, takeMessage } from '../../../web/model/bench.ts';
import { NO_WAITS, noteStage, usualOf } from '../../../web/model/waits.ts';
import { statusOf } from '../../support/status.ts';
import { judgementOf, plateauOf, trialOf } from './fixtures.ts';

const samples = (...time_s: number[]): Samples => ({
  time_s,
  voltage_V: time_s.map(() => 2),
  current_A: time_s.map(() => 0.1),
  windSpeed_mps: time_s.map(() => 4),
});
const snapshot = (more: Partial<Extract<LiveMessage, { type: 'snapshot' }>> = {}): LiveMessage => ({
  type: 'snapshot',
  status: statusOf(),
  trials: [],
  plateaus: [],
  openSince_s: null,
  samples: samples(1, 2, 3),
  judgement: null,
  experiment: NO_EXPERIMENT,
  ...more,
});
const told = (...messages: LiveMessage[]) => {
  const bench = createBench();
  bench.news.value = 'live';
  for (const message of messages) takeMessage(bench, message);
  return bench;
};
const settled: LiveMessage = {
  type: 'judgement',
  judgement: judgementOf({ phase: 'settled', time_s: 100 }),
};

describe('the life of a trial on the page', () => {
  const declared: LiveMessage = { type: 'declared', start_s: 93, declared_s: 98 };
  const logged: LiveMessage = {
    type: 'trial',
    trial: trialOf(1, 240, { state: 'logged', revision: 1 }),
  };
  it('is still, logged, and over when its plateau closes', () => {
    const bench = told(snapshot(), declared, settled);
    expect(bench.stage.value).toBe('still');
    expect(stretchLength_s(bench)).toBe(7);
    takeMessage(bench, logged);
    expect(bench.stage.value).toBe('logged');
    takeMessage(bench, { type: 'trial', trial: trialOf(1, 241) });
    takeMessage(bench, { type: 'closed', plateau: plateauOf({ trialId: 1 }) });
    expect(bench.trials.value).toHaveLength(1);
    expect(bench.loggedTrial.value).toBeNull();
  });
  it('is known from a snapshot alone', () => {
    const bench = told(
      snapshot({ openSince_s: 93, trials: [trialOf(1, 240, { state: 'logged' })] }),
      settled,
    );
    expect(bench.stage.value).toBe('logged');
  });
  it('is not taken from a trial that an earlier recording left open', () => {
    const left = trialOf(1, 240, { state: 'logged', recordingId: 7 });
    expect(told(snapshot({ openSince_s: 93, trials: [left] }), settled).stage.value).toBe('still');
  });
});

describe('another recording', () => {
  it('begins another stream time: nothing old is drawn into it or looks alive', () => {
    const bench = told(snapshot({ plateaus: [plateauOf()] }), settled);
    takeMessage(bench, { type: 'status', status: statusOf({ recordingId: 2 }) });
    expect(bench.buffer.length).toBe(0);
    expect(bench.judgement.value).toBeNull();
    expect(bench.plateaus.value).toEqual([]);
    takeMessage(bench, snapshot({ status: statusOf({ recordingId: 2 }), plateaus: [plateauOf()] }));
    expect(bench.plateaus.value).toEqual([]);
  });
  it('a snapshot without a judgement leaves none', () => {
    expect(told(snapshot(), settled, snapshot()).judgement.value).toBeNull();
  });
});

describe('usual waits', () => {
  it('are the median from spinning up to logged, once seen often enough', () => {
    let waits = NO_WAITS;
    for (const [from_s, to_s] of [
      [0, 20],
      [100, 130],
      [200, 224],
    ] as const) {
      waits = noteStage(waits, 'spinning-up', from_s);
      waits = noteStage(waits, 'settling', from_s + 5);
      waits = noteStage(waits, 'spinning-up', from_s + 6);
      expect(usualOf(waits)).toBe(from_s === 200 ? 30 : null);
      waits = noteStage(waits, 'logged', to_s);
    }
    expect(usualOf(waits)).toBe(24);
  });
  it('leave out what was broken off', () => {
    let waits = noteStage(NO_WAITS, 'spinning-up', 0);
    waits = noteStage(waits, 'running-down', 5);
    waits = noteStage(waits, 'logged', 50);
    expect(waits.seen_s).toEqual([]);
  });
});
