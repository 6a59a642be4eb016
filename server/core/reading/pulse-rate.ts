/**
 * Pulses per second from a counter that only grows, as a cup anemometer or a rotor pick-up gives.
 *
 * Counting pulses per sample would give 0, 0, 1, 0, …; here the time between pulses is measured:
 * the rate is the pulses over the time from one pulse to another at least HALF_S later, held until
 * the next such pair. Once no pulse comes for longer than the rate would allow, it is at most one
 * pulse in that time; after STILL_S without any it is zero. Slower than one pulse in STILL_S reads
 * as standing still.
 */
import { stepsForward } from './counter.ts';

const HALF_S = 0.5;
const STILL_S = 2;

export interface PulseRate {
  /** Newest counter value; null before the first. */
  count: number | null;
  /** Time of the newest pulse, or of the first sample while there was none. */
  pulseAt_s: number;
  /** The pulse that the running measurement began with, and pulses since. */
  startedAt_s: number | null;
  pulses: number;
  rate_Hz: number | null;
}

export function createPulseRate(): PulseRate {
  return { count: null, pulseAt_s: 0, startedAt_s: null, pulses: 0, rate_Hz: null };
}

export function resetPulseRate(state: PulseRate): void {
  Object.assign(state, createPulseRate());
}

/** Takes the counter at a sample; null until a rate is known. */
export function takePulseCount(state: PulseRate, count: number, time_s: number): number | null {
  const fresh = state.count === null ? null : stepsForward(state.count, count);
  if (fresh === null) {
    resetPulseRate(state);
    state.pulseAt_s = time_s;
  }
  state.count = count;
  if (fresh !== null && fresh > 0) takePulses(state, fresh, time_s);
  const quiet_s = time_s - state.pulseAt_s;
  if (quiet_s >= STILL_S) {
    state.rate_Hz = 0;
    state.startedAt_s = null;
  }
  if (state.rate_Hz === null || state.rate_Hz * quiet_s <= 1) return state.rate_Hz;
  return 1 / quiet_s;
}

function takePulses(state: PulseRate, fresh: number, time_s: number): void {
  state.pulseAt_s = time_s;
  state.pulses += fresh;
  if (state.startedAt_s !== null) {
    const elapsed_s = time_s - state.startedAt_s;
    if (elapsed_s < HALF_S) return;
    state.rate_Hz = state.pulses / elapsed_s;
  }
  state.startedAt_s = time_s;
  state.pulses = 0;
}
