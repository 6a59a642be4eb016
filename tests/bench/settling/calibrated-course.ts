/** The noise-free course of the calibrated recordings: levels behind a lag that they change. */
import type { Course, Stretch } from './truth.ts';

/** One piece of a session. Levels are relative to full scale; between two the goal is a ramp. */
export interface CalibratedPiece {
  readonly length_s: number;
  readonly use: Stretch['use'];
  readonly level: number;
  readonly endLevel: number;
  readonly swing: Swing | null;
}

/** A limit cycle about the level, relative to it. */
export interface Swing {
  readonly size: number;
  readonly period_s: number;
  readonly phase: number;
}

export interface CalibratedRotor {
  readonly lag_s: number;
  /** Relative loss as the rig warms up, and its time constant. */
  readonly droop: number;
  readonly droopTime_s: number;
}

export interface CalibratedCourse extends Course {
  /** What the rotor follows, droop aside; zero: nothing blows. */
  readonly goals: Float64Array;
  readonly stretches: readonly Stretch[];
  readonly duration_s: number;
}

/** At this level the lag is the nominal one; a rotor that turns slowly is slower to change. */
const NOMINAL_LEVEL = 0.7;
const FULL_SWING_AFTER_S = 2;

export function layCalibratedCourse(
  pieces: readonly CalibratedPiece[],
  rotor: CalibratedRotor,
  step_s: number,
): CalibratedCourse {
  const goals: number[] = [];
  const values: number[] = [];
  const stretches: Stretch[] = [];
  let value = 0;
  for (const piece of pieces) {
    const start_s = values.length * step_s;
    for (let i = 0; i < Math.round(piece.length_s / step_s); i++) {
      const goal = piece.level + ((piece.endLevel - piece.level) * i * step_s) / piece.length_s;
      const end = goal * (1 - lossAt(values.length * step_s - pieces[0]!.length_s, rotor));
      value += ((end - value) * step_s) / lagAt(end, rotor);
      goals.push(goal);
      values.push(value * (1 + swingAt(i * step_s, piece.swing)));
    }
    const end_s = values.length * step_s;
    stretches.push({ start_s, end_s, use: piece.use, wind: piece.level > 0 });
  }
  return {
    step_s,
    goals: Float64Array.from(goals),
    values: Float64Array.from(values),
    stretches,
    duration_s: values.length * step_s,
  };
}

/** It goes on warming up when it is stopped in between. */
function lossAt(warmedFor_s: number, { droop, droopTime_s }: CalibratedRotor): number {
  return droop * (1 - Math.exp(-Math.max(0, warmedFor_s) / droopTime_s));
}

function lagAt(level: number, { lag_s }: CalibratedRotor): number {
  const slower = clamp(NOMINAL_LEVEL / Math.max(level, 0.2), 0.7, 2);
  return clamp(lag_s * slower, 0.5, 5);
}

/** Grows from nothing and is not a pure sine. */
function swingAt(into_s: number, swing: Swing | null): number {
  if (swing === null) return 0;
  const phase = (2 * Math.PI * into_s) / swing.period_s + swing.phase;
  const grown = 1 - Math.exp(-into_s / FULL_SWING_AFTER_S);
  return grown * swing.size * (Math.sin(phase) + 0.25 * Math.sin(2 * phase));
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}
