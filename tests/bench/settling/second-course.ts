/**
 * The noise-free course of the second generator: no physics, only levels that are approached
 * through two lags, cycles, ramps and bumps laid over them.
 */
import type { Stretch } from './truth.ts';

/** One piece of a session. `level` is relative to full scale; it may drift and swing. */
export interface Piece {
  readonly length_s: number;
  readonly use: Stretch['use'];
  readonly wind: boolean;
  readonly level: number;
  /** Relative change of the level per second. */
  readonly drift_per_s: number;
  /** Swing about the level: relative amplitude and period. */
  readonly swing: number;
  readonly period_s: number;
  /** 0: a sine; towards 1 ever more lopsided. */
  readonly lean: number;
  /** Goes to its level at once, without lag: a contact or a load that changes, not the rotor. */
  readonly abrupt: boolean;
}

export interface Lags {
  readonly rise_s: number;
  readonly fall_s: number;
  /** Before the rotor: the fan. */
  readonly lead_s: number;
  /** Relative loss over time from the start of a run, and its time constant. */
  readonly droop: number;
  readonly droopTime_s: number;
}

export interface SecondCourse {
  readonly step_s: number;
  /** Voltage relative to full scale. */
  readonly values: Float64Array;
  /** Wind relative to the wind at full scale. */
  readonly wind: Float64Array;
  readonly stretches: readonly Stretch[];
  readonly duration_s: number;
}

const STEP_S = 0.01;

interface CourseState {
  led: number;
  value: number;
  wind: number;
  runFor_s: number;
}

export function layCourse(pieces: readonly Piece[], lags: Lags): SecondCourse {
  const values: number[] = [];
  const wind: number[] = [];
  const stretches: Stretch[] = [];
  const state: CourseState = { led: 0, value: 0, wind: 0, runFor_s: 0 };
  for (const piece of pieces) {
    const steps = Math.round(piece.length_s / STEP_S);
    const start_s = values.length * STEP_S;
    if (piece.abrupt) {
      state.led = piece.level;
      state.value = piece.level;
    }
    for (let i = 0; i < steps; i++) {
      advance(state, piece, lags, i * STEP_S);
      values.push(state.value * (1 + piece.swing * cycle(i * STEP_S, piece)));
      wind.push(state.wind);
    }
    stretches.push({ start_s, end_s: values.length * STEP_S, use: piece.use, wind: piece.wind });
  }
  return {
    step_s: STEP_S,
    values: Float64Array.from(values),
    wind: Float64Array.from(wind),
    stretches,
    duration_s: values.length * STEP_S,
  };
}

/** A cycle of size one: quick up, slow down, as stall lets go and takes hold. */
function cycle(time_s: number, { period_s, lean }: Piece): number {
  const phase = (2 * Math.PI * time_s) / period_s;
  return Math.sin(phase + lean * Math.sin(phase));
}

function advance(state: CourseState, piece: Piece, lags: Lags, into_s: number): void {
  state.runFor_s = piece.wind ? state.runFor_s + STEP_S : 0;
  const tired = lags.droop * (1 - Math.exp(-state.runFor_s / lags.droopTime_s));
  const target = piece.level * Math.exp(piece.drift_per_s * into_s) * (1 - tired);
  state.led += ((target - state.led) * STEP_S) / lags.lead_s;
  const lag_s = state.led > state.value ? lags.rise_s : lags.fall_s;
  state.value += ((state.led - state.value) * STEP_S) / lag_s;
  const blows = piece.wind ? Math.max(target, 0.3) ** 0.8 : 0;
  state.wind += ((blows - state.wind) * STEP_S) / lags.lead_s;
}
