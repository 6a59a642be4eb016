/**
 * Measured beside expected: which levels lie far from the prediction's band, and which single
 * change of what was said of the rig would bring the prediction to what was measured. Ranked by
 * what it leaves open plus how far it has to be stretched, both squared, in standard uncertainties:
 * the most probable single one if all are equally likely beforehand.
 */
import { standardDeviationOf } from '../../metrology/type-a/series.ts';
import type { BenchRig } from '../bench-rig.ts';
import type { Draw, RigUncertainty } from '../doubt.ts';
import { operate, setBlades } from '../operating-point.ts';
import { powerFlow } from '../power-flow.ts';
import { predictSetting, type PredictedSetting } from '../predict-setting.ts';
import type { ComparedLevel, Explanation } from './compared-level.ts';
import { suspicionText, overallStatement } from './expectation-words.ts';
import { SUSPICIONS, type Suspected, type Suspicion } from './suspects.ts';

/** What was measured at one level; 0 W where the rotor did not turn. */
export interface MeasuredLevel {
  readonly angle_deg: number;
  /** Where the level is another rig than that of the question: longer blades, more of them. */
  readonly rig?: BenchRig;
  readonly loadPower_W: number;
  readonly standardUncertainty_W: number;
}

export interface ExpectationQuestion {
  readonly rig: BenchRig;
  readonly uncertainty: RigUncertainty;
  /** At least 100, of `drawRigs`. */
  readonly draws: readonly Draw[];
  readonly measured: readonly MeasuredLevel[];
}

export interface Expectation {
  /** In the order measured. */
  readonly levels: readonly ComparedLevel[];
  /** The most probable first; empty where nothing is far off. */
  readonly explanations: readonly Explanation[];
  readonly statement: string;
}

/** Squared standard uncertainties that an explanation has to save to be named. */
const WORTH_NAMING = 4;

export function compareWithExpected(question: ExpectationQuestion): Expectation {
  const { measured } = question;
  const expected = measured.map(({ angle_deg, rig = question.rig }) => {
    return predictSetting({ rig, angle_deg }, question);
  });
  return comparePredicted(question, expected);
}

/** The same where what is expected is known already. @param expected of each level, in its order */
export function comparePredicted(
  question: ExpectationQuestion,
  expected: readonly PredictedSetting[],
): Expectation {
  const { measured } = question;
  const levels = measured.map((level, i) => comparedLevel(level, expected[i]!));
  const scatter = measured.map((level, i) => relativeScatter(level, expected[i]!));
  const explanations = levels.some(({ isFar }) => isFar) ? explain(question, scatter) : [];
  return { levels, explanations, statement: overallStatement(levels, explanations) };
}

function comparedLevel(level: MeasuredLevel, { point }: PredictedSetting): ComparedLevel {
  const { angle_deg, loadPower_W: measured_W, standardUncertainty_W } = level;
  const { loadPower_W: expected_W, loadPowerLow_W: low_W, loadPowerHigh_W: high_W } = point;
  const reach_W = 2 * standardUncertainty_W;
  const isFar = measured_W + reach_W < low_W || measured_W - reach_W > high_W;
  return { angle_deg, measured_W, expected_W, low_W, high_W, isFar, point };
}

/** Relative to the larger of the two powers. */
function relativeScatter(level: MeasuredLevel, { point, drawn_W }: PredictedSetting): number {
  const larger_W = Math.max(level.loadPower_W, point.loadPower_W);
  const both_W = Math.hypot(level.standardUncertainty_W, standardDeviationOf(drawn_W));
  return larger_W > 0 ? Math.max(both_W / larger_W, LEAST_SCATTER) : 1;
}

/** No model of a bench-top rotor is better than this. */
const LEAST_SCATTER = 0.05;

function explain(question: ExpectationQuestion, scatter: readonly number[]): Explanation[] {
  const untouched = misfit(question, scatter, (asSaid) => asSaid);
  const tried = SUSPICIONS.map((suspicion) => bestStretch(question, scatter, suspicion));
  return tried
    .filter(({ cost }) => cost < untouched - WORTH_NAMING)
    .sort((a, b) => a.cost - b.cost)
    .map(({ explanation }) => explanation);
}

interface Tried {
  readonly cost: number;
  readonly explanation: Explanation;
}

function bestStretch(
  question: ExpectationQuestion,
  scatter: readonly number[],
  { suspect, stretches, change, apply }: Suspicion,
): Tried {
  const tried = stretches.map((stretch) => {
    const changed = change(stretch, question.uncertainty);
    const open = misfit(question, scatter, (asSaid) => apply(asSaid, changed));
    const left = Math.sqrt(open / question.measured.length);
    const statement = suspicionText(suspect, changed, question.rig);
    const explanation = { suspect, change: changed, stretch, left, statement };
    return { cost: open + stretch ** 2, explanation };
  });
  return tried.reduce((best, one) => (one.cost < best.cost ? one : best));
}

/** Squared, in standard uncertainties, over all levels; of the roots, so that 0 W counts too. */
function misfit(
  { rig: asked, measured }: ExpectationQuestion,
  scatter: readonly number[],
  otherwise: (asSaid: Suspected) => Suspected,
): number {
  return measured.reduce((sum, { angle_deg, rig = asked, loadPower_W }, i) => {
    const power_W = predicted_W(otherwise({ rig, angle_deg, reading: 1 }));
    const larger_W = Math.max(power_W, loadPower_W);
    if (larger_W === 0) return sum;
    const difference = (2 * (Math.sqrt(loadPower_W) - Math.sqrt(power_W))) / Math.sqrt(larger_W);
    return sum + (difference / scatter[i]!) ** 2;
  }, 0);
}

/** As it would be read. */
function predicted_W({ rig, angle_deg, reading }: Suspected): number {
  return reading * powerFlow(rig, operate(setBlades(rig, angle_deg)).point).load_W;
}
