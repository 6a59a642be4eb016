/** Trials, plateaus, judgements and a status to test the page's model with. */
import type { PlateauView, TrialView } from '#core/live-messages.ts';
import type { Facts, Judgement } from '../../../web/model/stage.ts';
import { statusOf } from '../../support/status.ts';

const value = (mean: number, standardUncertainty: number) => {
  return { value: mean, standardUncertainty, degreesOfFreedom: 1e6 };
};

/** A trial of so many mW, whose expanded uncertainty (95 %) is 2 % of it. */
export function trialOf(id: number, power_mW: number, more: Partial<TrialView> = {}): TrialView {
  const power_W = power_mW / 1000;
  return {
    id,
    recordingId: 1,
    revision: 2,
    state: 'final',
    recorded: true,
    start_s: 10 * id,
    end_s: 10 * id + 8,
    declared_s: 10 * id + 3,
    sampleCount: 400,
    rotorStill: false,
    basis: 'settled',
    factors: {},
    runId: null,
    voltage_V: value(2.3, 0.002),
    current_A: value(0.105, 0.0001),
    power_W: value(power_W, 0.01 * power_W),
    windSpeed_mps: value(4.1, 0.02),
    rotorSpeed_radps: null,
    ripple: null,
    speed: null,
    powerCoefficient: null,
    origin: 'board',
    simulated: false,
    struck: false,
    strikeReason: null,
    note: null,
    correction: null,
    recordedAt: '2026-03-14T13:02:31Z',
    checksum: '00000000',
    ...more,
  };
}

export function plateauOf(more: Partial<PlateauView> = {}): PlateauView {
  return {
    recordingId: 1,
    start_s: 80,
    end_s: 90,
    declared_s: 84,
    endReason: 'changed',
    sampleCount: 500,
    rotorStill: false,
    trialId: null,
    power_W: value(0.24, 0.001),
    ...more,
  };
}

/** Slices of power, oldest first, joined or not all alike. */
export function slicesOf(powers_W: readonly number[], joined: boolean): Judgement['threads'] {
  return powers_W.map((power_W) => ({ power_W, joined }));
}

export function judgementOf(more: Partial<Judgement> = {}): Judgement {
  return {
    time_s: 100,
    phase: 'settling',
    channels: [
      { channel: 'voltage_V', motion: 'still', level: 2.3, slope_per_s: 0 },
      { channel: 'current_A', motion: 'still', level: 0.105, slope_per_s: 0 },
      { channel: 'windSpeed_mps', motion: 'still', level: 4.1, slope_per_s: 0 },
    ],
    threads: slicesOf(Array<number>(24).fill(0.24), true),
    power_W: {
      mean: 0.24,
      standardUncertainty: 0.0015,
      degreesOfFreedom: 1e6,
      effectiveSampleSize: 20,
    },
    remaining_s: null,
    rotorStill: false,
    windBlows: true,
    cause: null,
    ...more,
  };
}

export function factsOf(more: Partial<Facts> = {}): Facts {
  return {
    news: 'live',
    status: statusOf(),
    judgement: judgementOf(),
    loggedTrial: null,
    lastClosed: null,
    leastSinceClosed_W: null,
    mostPower_W: 0.26,
    ...more,
  };
}
