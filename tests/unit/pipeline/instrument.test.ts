/** What is said of instruments, rotor and air is an input: replayed, the same budgets come out. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_CONFIGURATION } from '#core/configuration.ts';
import type { Event } from '#core/events.ts';
import { budgetAnswer, coefficientToTell } from '#core/experiment/budget/answer.ts';
import { InputSchema, type Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import type { RotorAndAir } from '#core/rotor/wind/rotor-and-air.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';
import { script } from '../../support/bench-script.ts';
import { DIVIDER_AND_SHUNT, ROTOR_AND_AIR } from '../../support/budgets.ts';

function play(inputs: readonly Input[]) {
  let state = begin(freshHead('board'), 1);
  const events: Event[] = [];
  for (const input of inputs) {
    const result = step(state, input);
    state = result.state;
    events.push(...result.events);
  }
  return { state, events };
}

const configuration = { ...DEFAULT_CONFIGURATION, instrument: DIVIDER_AND_SHUNT };

describe('what the operator says of the instruments', () => {
  const builder = script().open().level(0, 2).level(2.4, 8);
  builder.inputs.push({ kind: 'configured', at_s: builder.now(), configuration });
  const { inputs } = builder.level(2.4, 8).level(0, 4).close('ended');
  const { state, events } = play(inputs);
  const { instruments } = state.conductor.ledger;

  it('is kept for the recording, and what goes on goes on', () => {
    expect(instruments).toMatchObject([{ recordingId: 1, said: DIVIDER_AND_SHUNT }]);
    const trials = events.flatMap((event) => (event.kind === 'trial' ? [event.trial] : []));
    expect(new Set(trials.map(({ id }) => id))).toEqual(new Set([1]));
    expect(trials.at(-1)?.state).toBe('final');
  });

  it('gives the same budget when the recording is played again from what was stored', () => {
    const stored = inputs.map((input) => InputSchema.parse(JSON.parse(JSON.stringify(input))));
    const again = play(stored).state;
    const answer = (one: typeof state) => budgetAnswer(one.book.trials[0]!, one.conductor.ledger);
    expect(answer(again)).toEqual(answer(state));
    expect(answer(state).budget?.gaps).toEqual([]);
    expect(answer(state).check?.isLinear).toBe(true);
  });

  it('does not go away when a plan is taken back', () => {
    step(state, { kind: 'command', at_s: 99, command: { say: 'cover' } });
    step(state, { kind: 'command', at_s: 99, command: { say: 'undo' } });
    expect(state.conductor.ledger.isCovered).toBe(false);
    expect(state.conductor.ledger.instruments).toEqual(instruments);
  });
});

describe('a correction that holds for what is read from now on', () => {
  const known = { of: 'gain', standardUncertainty: 0.01, distribution: 'rectangular' } as const;
  const line = { gain: 1.1, offset: 0, knownTo: known };
  const calibration = { voltage_V: { gain: 1.1, offset: 0, corrections: [line] } };
  const builder = script().open().level(0, 2).level(2.4, 10).level(0, 6);
  builder.inputs.push({ kind: 'configured', at_s: builder.now(), configuration: { ...configuration, calibration } });
  const { inputs } = builder.level(0, 6).level(2.4, 10).level(0, 4).close('ended');
  const { state } = play(inputs.map((input) => InputSchema.parse(JSON.parse(JSON.stringify(input)))));

  it('is taken back with the rest, also on a laptop that has met another board meanwhile', () => {
    const corrected = inputs.map((input): Input => (input.kind === 'configured' ? { ...input, corrected: 'voltage_V' } : input));
    const stored = [...corrected, { kind: 'command' as const, at_s: 99, command: { say: 'undo' as const } }];
    const { state: undone } = play(stored.map((input) => InputSchema.parse(JSON.parse(JSON.stringify(input)))));
    expect(play(corrected).state.conductor.ledger.undos.map(({ done }) => done.what)).toEqual(['correct-from-now']);
    expect(undone.conductor.ledger.undos).toEqual([]);
    expect(undone.reader.configuration).toEqual(configuration);
    // Trials that were read with it stay as they were read.
    expect(undone.book.trials).toEqual(play(corrected).state.book.trials);
    const elsewhere = play(corrected).state;
    elsewhere.reader.linkId = 'another board';
    step(elsewhere, { kind: 'command', at_s: 99, command: { say: 'undo' } });
    expect(elsewhere.reader.configuration.calibration.voltage_V?.gain).toBe(1.1);
    expect(elsewhere.conductor.ledger.undos).toEqual([]);
  });

  it('goes with the trials from then on, and no others', () => {
    const [first, second] = state.book.trials;
    expect(first?.readBy).toBeUndefined();
    expect(second?.readBy).toEqual({ voltage_V: [line] });
    const { budget } = budgetAnswer(second!, state.conductor.ledger);
    const row = budget?.rows.find(({ cause }) => cause === 'correction');
    expect(row?.contribution_W).toBeCloseTo(0.01 * budget!.value_W, 12);
    expect(budgetAnswer(first!, state.conductor.ledger).budget?.rows.map(({ cause }) => cause)).not.toContain('correction');
  });
});

describe('what somebody says of rotor and air', () => {
  const { inputs } = script().open().level(0, 2).level(2.4, 8).level(0, 4).close('ended');
  const said = { kind: 'command' as const, at_s: 99, command: { say: 'rotor-and-air' as const, described: ROTOR_AND_AIR } };

  it('changes no trial, is derived again from what was stored, and is taken back', () => {
    const before = play(inputs).state;
    const stored = [...inputs, said].map((input) => InputSchema.parse(JSON.parse(JSON.stringify(input))));
    const { state } = play(stored);
    expect(state.book.trials).toEqual(before.book.trials);
    expect(state.conductor.ledger.rotorAndAir).toEqual(ROTOR_AND_AIR);
    const smaller = { ...ROTOR_AND_AIR, radius_m: 0.1 };
    step(state, { kind: 'command', at_s: 99, command: { say: 'rotor-and-air', described: smaller } });
    expect(state.conductor.ledger.rotorAndAir).toEqual(smaller);
    step(state, { kind: 'command', at_s: 99, command: { say: 'undo' } });
    expect(state.conductor.ledger.rotorAndAir).toEqual(ROTOR_AND_AIR);
    step(state, { kind: 'command', at_s: 99, command: { say: 'undo' } });
    expect(state.conductor.ledger.rotorAndAir).toBeNull();
    expect(step(state, { kind: 'command', at_s: 99, command: { say: 'undo' } }).events[0]).toMatchObject({ kind: 'notice' });
  });

  it('gives the trials before it their power coefficient too', () => {
    const trial = { ...play(inputs).state.book.trials[0]!, windSpeed_mps: { value: 4, standardUncertainty: 0.02, degreesOfFreedom: 20 } };
    const told = (rotorAndAir: RotorAndAir | null) => coefficientToTell(trial, { instruments: [], rotorAndAir, airs: [] });
    expect(told(null)).toBeNull();
    const { value, standardUncertainty } = told(ROTOR_AND_AIR)!;
    const wind_W = 0.5 * 1.199314 * Math.PI * 0.04 * 64;
    expect(Math.abs(value / (trial.power_W!.value / wind_W) - 1)).toBeLessThan(0.016);
    expect(standardUncertainty).toBeGreaterThan(0);
  });
});

describe('what a board says of its calibration', () => {
  it('is kept in SI', () => {
    const channel = (number: number, quantity: string, unit: string) =>
      formatFrame({
        kind: 'channel', number, quantity, unit, scale: 0.25, zero: 0, gain: 2, offset: 0,
        gainUncertainty: 0.006, offsetUncertainty: number === 1 ? null : 0.4,
      });
    const lines = [
      formatFrame({ kind: 'opening', cause: 'boot', timeUnit: 'us', channelCount: 2 }),
      channel(1, 'voltage', 'mV'),
      channel(2, 'current', 'mA'),
    ];
    const link = { source: 'serial', id: 'b', name: 'b', clock: 'arrival', wholeFromStart: true } as const;
    const { state } = play([
      { kind: 'opened', at_s: 0, link },
      ...lines.map((text, i): Input => ({ kind: 'line', at_s: i / 10, text })),
    ]);
    expect(state.conductor.ledger.instruments[0]?.announced).toEqual({
      voltage: { kind: 'stated', gainUncertainty: 0.003, offsetUncertainty: null },
      current: { kind: 'stated', gainUncertainty: 0.003, offsetUncertainty: 0.0004 },
    });
  });
});
