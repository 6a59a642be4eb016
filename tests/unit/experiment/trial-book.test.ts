import { describe, expect, it } from 'vitest';
import {
  addressOf,
  addressedTrial,
  applyAction,
  createBook,
  enterTrial,
  reviseTrial,
  type TrialBook,
} from '#core/experiment/trial-book.ts';
import type { Action } from '#core/inputs.ts';
import type { DerivedTrial } from '#core/experiment/trial-life.ts';

function derived(start_s: number, end_s: number): DerivedTrial {
  return {
    state: 'logged',
    recorded: true,
    start_s,
    end_s,
    declared_s: start_s + 3,
    sampleCount: 250,
    rotorStill: false,
    basis: 'settled',
    voltage_V: { value: 2, standardUncertainty: 0.01, degreesOfFreedom: 9 },
    current_A: null,
    power_W: null,
    windSpeed_mps: null,
    rotorSpeed_radps: null,
    ripple: null,
  };
}

const bench = (recordingId: number) =>
  ({ recordingId, recorded_s: 20, origin: 'board', runId: null, factors: {} }) as const;

/** Runs mean nothing here. */
function act(book: TrialBook, action: Action) {
  const trial = addressedTrial(book, action);
  const givenTo = (runId: string | null) => ({ runId, factors: {} });
  return trial && applyAction(book, trial, action, givenTo);
}

describe('the book of trials', () => {
  it('numbers trials across recordings', () => {
    const book = createBook();
    const first = enterTrial(book, derived(0, 10), bench(1));
    const resumed = createBook(book.trials);
    const second = enterTrial(resumed, derived(0, 10), bench(2));
    expect([first.id, second.id]).toEqual([1, 2]);
  });

  it('marks what is simulated', () => {
    const where = { ...bench(1), origin: 'simulated' } as const;
    expect(enterTrial(createBook(), derived(0, 10), where).simulated).toBe(true);
    expect(enterTrial(createBook(), derived(0, 10), bench(1)).simulated).toBe(false);
  });

  it('keeps the operator’s marks when the samples revise a trial', () => {
    const book = createBook();
    const trial = enterTrial(book, derived(0, 10), bench(1));
    act(book, { kind: 'strike', ...addressOf(trial), reason: 'blade slipped' });
    act(book, { kind: 'note', ...addressOf(trial), text: 'window was open' });
    const final = reviseTrial(book, trial.id, { ...derived(0, 14), state: 'final' });
    expect(final).toMatchObject({
      revision: 4,
      state: 'final',
      end_s: 14,
      struck: true,
      strikeReason: 'blade slipped',
      note: 'window was open',
    });
  });

  it('takes a strike back', () => {
    const book = createBook();
    const trial = enterTrial(book, derived(0, 10), bench(1));
    act(book, { kind: 'strike', ...addressOf(trial), reason: '' });
    expect(act(book, { kind: 'restore', ...addressOf(trial) })).toMatchObject({
      struck: false,
      strikeReason: null,
      revision: 3,
    });
  });

  it('finds a trial by recording and time, whatever its number', () => {
    const book = createBook();
    enterTrial(book, derived(0, 10), bench(1));
    const wanted = enterTrial(book, derived(0, 10), bench(2));
    const found = act(book, { kind: 'note', recordingId: 2, time_s: 9, text: 'here' });
    expect(found?.id).toBe(wanted.id);
  });

  it('says that an action hit nothing', () => {
    const book = createBook();
    enterTrial(book, derived(0, 10), bench(1));
    const orphan = { kind: 'strike', recordingId: 1, time_s: 11, reason: '' } as const;
    expect(act(book, orphan)).toBeNull();
    expect(book.trials[0]?.struck).toBe(false);
  });

  it('refuses to revise what it does not hold', () => {
    expect(() => reviseTrial(createBook(), 3, {})).toThrow('trial 3');
  });
});
