/**
 * The load that gets the most of a source, from trials at several loads:
 *
 *     V = E − R·I,   P = E²·R_L/(R + R_L)²,   the most, E²/(4·R), where R_L = R
 *
 * (maximum power transfer; a law of the textbooks, from memory). On a rotor in one wind the source
 * is rotor and generator together: R is the winding and what the rotor slows down under load, so
 * that it is no figure of the generator. Where the voltage does not fall in a straight line, there
 * is no such R. Gains that voltage and current are read with move R and the loads alike.
 */
import { ALPHA, momentsOf } from '../../statistics/groups.ts';
import { lackOfFit } from '../../statistics/lack-of-fit.ts';
import { studentTQuantile } from '../../statistics/student-t.ts';
import type { LoadStep } from './fit-generator.ts';
import { fitColumns, isVague, type Fitted } from './fitted.ts';

/** A trial at a load that others may have as well. */
export interface LoadedStep extends LoadStep {
  /** Which load it was. */
  readonly level: number;
}

/** A power with 95 % limits, W. */
export interface LimitedPower {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

export interface SourceLine {
  readonly emf_V: Fitted;
  readonly resistance_Ohm: Fitted;
  /** At a load, as the line has it. */
  powerAt(load_Ohm: number): LimitedPower;
}

export const NO_SOURCE_LINE = ['too few loads', 'not a line', 'too vague'] as const;
export type NoSourceLine = (typeof NO_SOURCE_LINE)[number];

/** Two make a line; the third shows whether it is one. */
const FEWEST_LOADS = 3;

export function sourceLine(steps: readonly LoadedStep[]): SourceLine | NoSourceLine {
  const levels = [...new Set(steps.map(({ level }) => level))];
  if (levels.length < FEWEST_LOADS) return 'too few loads';
  const columns = [steps.map(() => 1), steps.map(({ current_A }) => -current_A)];
  const { rank, fitted, sum } = fitColumns(columns, steps.map(({ voltage_V }) => voltage_V));
  const [emf_V, resistance_Ohm] = fitted;
  if (rank < 2 || !emf_V || !resistance_Ohm) return 'too few loads';
  const [E, R] = [emf_V.value, resistance_Ohm.value];
  if (!(E > 0 && R > 0)) return 'not a line';
  const left = steps.map(({ level, voltage_V, current_A }) => {
    return { level, off: voltage_V - (E - R * current_A) };
  });
  const groups = levels.map((one) =>
    momentsOf(left.filter(({ level }) => level === one).map(({ off }) => off)),
  );
  const residualSquares = left.reduce((total, { off }) => total + off ** 2, 0);
  const test = lackOfFit(groups, { residualSquares, residualFreedom: steps.length - rank });
  if (test !== null && test.p < ALPHA) return 'not a line';
  if (isVague(resistance_Ohm)) return 'too vague';
  const k = studentTQuantile(1 - ALPHA / 2, resistance_Ohm.degreesOfFreedom);
  return {
    emf_V,
    resistance_Ohm,
    powerAt(load_Ohm) {
      const mean = (E ** 2 * load_Ohm) / (R + load_Ohm) ** 2;
      const byLine = sum([(2 * mean) / E, (-2 * mean) / (R + load_Ohm)]);
      const half = k * (byLine.standardUncertainty ?? 0);
      return { mean, low: mean - half, high: mean + half };
    },
  };
}
