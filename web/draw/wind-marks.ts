/** Trials and bins of a power curve on the answer plot: their power, or their share of the wind's. */
import type { TrialOnCurve } from '#core/experiment/budget/curve-of-trials.ts';
import type { TrialView } from '#core/live-messages.ts';
import { MOST_DEGREES_OF_FREEDOM } from '#core/metrology/combine.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import type { CurveBin } from '#core/rotor/wind/power-curve.ts';
import { BETZ_LIMIT } from '#core/rotor/wind/wind-power.ts';
import { niceAxis, type Axis } from './axis.ts';
import type { Across, WindMean } from './trial-marks.ts';

export function powerMeans(bins: readonly CurveBin[]): readonly WindMean[] {
  return bins.map((bin) => {
    return meanOfBin(bin, { value: bin.power_W, typeA: bin.typeA_W, typeB: bin.typeB_W });
  });
}

/** Shares of the wind's power stand where powers do. */
export function shareMeans(bins: readonly CurveBin[]): readonly WindMean[] {
  return bins.map((bin) => {
    const { powerCoefficient: value, coefficientTypeA: typeA, coefficientTypeB: typeB } = bin;
    return meanOfBin(bin, { value, typeA, typeB });
  });
}

interface Of {
  readonly value: number;
  readonly typeA: number | null;
  readonly typeB: number;
}

/** One trial alone does not show its scatter: then there is no line of it. */
function meanOfBin({ wind_mps, count }: CurveBin, { value, typeA, typeB }: Of): WindMean {
  const half = (standardUncertainty: number | null, degreesOfFreedom: number): number | null =>
    expandedUncertainty({ standardUncertainty, degreesOfFreedom });
  return {
    wind_mps,
    power_W: value,
    halfPower_W: half(typeA, count - 1),
    halfCommon_W: half(typeB, MOST_DEGREES_OF_FREEDOM) ?? 0,
  };
}

interface Placed extends Pick<TrialOnCurve, 'coefficient'> {
  readonly trial: { readonly id: number };
}

/** Each trial of the curve at the wind that its rotor had; the others as they are. */
export function atRotorsWind(
  trials: readonly TrialView[],
  placed: readonly Placed[],
): readonly TrialView[] {
  return trials.map((trial) => {
    const found = placed.find((one) => one.trial.id === trial.id);
    if (found === undefined || trial.windSpeed_mps === null) return trial;
    const value = found.coefficient.wind_mps;
    return { ...trial, windSpeed_mps: { ...trial.windSpeed_mps, value } };
  });
}

/** The trials of the curve, their share in place of their power. */
export function asShares(
  trials: readonly TrialView[],
  placed: readonly Placed[],
): readonly TrialView[] {
  return atRotorsWind(trials, placed).flatMap((trial) => {
    const found = placed.find((one) => one.trial.id === trial.id);
    if (found === undefined) return [];
    const { value } = found.coefficient;
    return [{ ...trial, power_W: { value, standardUncertainty: null, degreesOfFreedom: 0 } }];
  });
}

/** The lines are those of the bins: each trial's own would hide them. */
export function onCurve(across: Across): Across {
  const marks = across.marks.map((mark) => ({ ...mark, halfPower_W: 0, halfAcross: 0 }));
  return { ...across, marks };
}

/** From this share on there is room for the limit, and the trials are still told apart. */
const LIMIT_SHOWN_FROM = 0.2;
const HEADROOM = 1.04;

/** With Betz's limit on it, unless that would leave the trials a strip at the floor. */
export function shareAxis(placed: readonly Placed[], means: readonly WindMean[]): Axis {
  const most = Math.max(
    ...placed.map(({ coefficient }) => coefficient.value),
    ...means.map(({ power_W, halfPower_W, halfCommon_W }) => {
      return power_W + Math.max(halfPower_W ?? 0, halfCommon_W);
    }),
  );
  const top = most < LIMIT_SHOWN_FROM ? most : Math.max(most, BETZ_LIMIT);
  return niceAxis(0, top * HEADROOM, BETZ_LIMIT);
}
