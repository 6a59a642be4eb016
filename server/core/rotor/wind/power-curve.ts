/**
 * Power against wind by the arithmetic of the method of bins (IEC 61400-12-1; from memory, and
 * without any claim to conform: a bench has no mast, no ten-minute means, no free wind).
 *
 * Each trial's power is brought to one air density, P·ρ₀/ρ, as for a rotor whose blades stand at a
 * fixed pitch; trials are sorted into bins of wind speed; of each bin the means are taken. What the
 * trials of a bin scatter is its Type A uncertainty, s/√N. What instruments are off moves all of them
 * alike (Type B): the power's own, and the wind's by the steepness of the curve.
 */
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import { windPower_W } from './wind-power.ts';

/** The standard atmosphere's at sea level (ISO 2533). */
export const REFERENCE_DENSITY_kgpm3 = 1.225;
/** Half of the standard's width: a fan gives some metres a second, not twenty-five. */
export const BENCH_BIN_mps = 0.25;
/** With fewer trials a bin's scatter says little (the standard wants half an hour of data). */
export const TRIALS_FOR_A_BIN = 3;

/** Standard uncertainties are those that the trials have in common (Type B). */
export interface CurvePoint {
  readonly wind_mps: number;
  readonly windUncertainty_mps: number;
  readonly power_W: number;
  readonly powerUncertainty_W: number;
  readonly airDensity_kgpm3: number;
  readonly densityUncertainty_kgpm3: number;
}

export interface CurveBin {
  /** Middle of the bin, a whole multiple of its width. */
  readonly middle_mps: number;
  readonly count: number;
  readonly isComplete: boolean;
  /** Means of the trials in it, at the reference density. */
  readonly wind_mps: number;
  readonly power_W: number;
  /** Null for one trial alone: its scatter is not known. */
  readonly typeA_W: number | null;
  readonly typeB_W: number;
  readonly standardUncertainty_W: number | null;
  readonly powerCoefficient: number;
  readonly coefficientTypeA: number | null;
  /** Without the area's, which is the same for all bins. */
  readonly coefficientTypeB: number;
  readonly coefficientUncertainty: number | null;
}

export interface CurveSettings {
  readonly area_m2: number;
  readonly binWidth_mps?: number;
  readonly referenceDensity_kgpm3?: number;
}

/** The bins that hold trials, in order of wind. Trials need wind and density above 0. */
export function powerCurve(points: readonly CurvePoint[], settings: CurveSettings): CurveBin[] {
  const { area_m2, binWidth_mps: width = BENCH_BIN_mps } = settings;
  const density_kgpm3 = settings.referenceDensity_kgpm3 ?? REFERENCE_DENSITY_kgpm3;
  const bins = new Map<number, Normalised[]>();
  for (const point of points) {
    // A bin holds its lower edge. Without the rounding 0.3/0.1 would be a little less than 3.
    const at = Math.floor(Number((point.wind_mps / width + 0.5).toPrecision(12)));
    bins.set(at, [...(bins.get(at) ?? []), normalised(point, density_kgpm3)]);
  }
  const means = [...bins].sort(([a], [b]) => a - b).map(([at, held]) => meansOf(at * width, held));
  return means.map((bin, i) => {
    const typeB_W = Math.hypot(bin.ownTypeB_W, steepness(means, i) * bin.windTypeB_mps);
    return binOf(bin, typeB_W, { area_m2, density_kgpm3 });
  });
}

interface Normalised {
  readonly wind_mps: number;
  readonly power_W: number;
  readonly powerUncertainty_W: number;
  readonly windUncertainty_mps: number;
}

/** P·ρ₀/ρ, and what power and density leave open about it. */
function normalised(point: CurvePoint, reference_kgpm3: number): Normalised {
  const { wind_mps, windUncertainty_mps, airDensity_kgpm3 } = point;
  const factor = reference_kgpm3 / airDensity_kgpm3;
  const power_W = point.power_W * factor;
  const byDensity_W = (power_W * point.densityUncertainty_kgpm3) / airDensity_kgpm3;
  const powerUncertainty_W = Math.hypot(point.powerUncertainty_W * factor, byDensity_W);
  return { wind_mps, windUncertainty_mps, power_W, powerUncertainty_W };
}

type Means = ReturnType<typeof meansOf>;

function meansOf(middle_mps: number, held: readonly Normalised[]) {
  const count = held.length;
  const powers = held.map(({ power_W }) => power_W);
  return {
    middle_mps,
    count,
    wind_mps: meanOf(held.map(({ wind_mps }) => wind_mps)),
    power_W: meanOf(powers),
    typeA_W: count > 1 ? standardDeviationOf(powers) / Math.sqrt(count) : null,
    // The same instruments in all of them: it does not average away.
    ownTypeB_W: meanOf(held.map(({ powerUncertainty_W }) => powerUncertainty_W)),
    windTypeB_mps: meanOf(held.map(({ windUncertainty_mps }) => windUncertainty_mps)),
  };
}

/** |ΔP/ΔV| from the bin below, as in the standard; of the lowest bin from the one above. */
function steepness(bins: readonly Means[], at: number): number {
  const [below, above] = at > 0 ? [bins[at - 1], bins[at]] : [bins[0], bins[1]];
  if (below === undefined || above === undefined) return 0;
  return Math.abs((above.power_W - below.power_W) / (above.wind_mps - below.wind_mps));
}

function binOf(
  { middle_mps, count, wind_mps, power_W, typeA_W, ownTypeB_W, windTypeB_mps }: Means,
  typeB_W: number,
  air: { readonly area_m2: number; readonly density_kgpm3: number },
): CurveBin {
  const { area_m2, density_kgpm3: airDensity_kgpm3 } = air;
  const wind_W = windPower_W({ airDensity_kgpm3, area_m2, meanCube_m3ps3: wind_mps ** 3 });
  const byWind = (3 * (power_W / wind_W) * windTypeB_mps) / wind_mps;
  const coefficientTypeA = typeA_W === null ? null : typeA_W / wind_W;
  const coefficientTypeB = Math.hypot(ownTypeB_W / wind_W, byWind);
  return {
    middle_mps,
    count,
    isComplete: count >= TRIALS_FOR_A_BIN,
    wind_mps,
    power_W,
    typeA_W,
    typeB_W,
    standardUncertainty_W: typeA_W === null ? null : Math.hypot(typeA_W, typeB_W),
    powerCoefficient: power_W / wind_W,
    coefficientTypeA,
    coefficientTypeB,
    coefficientUncertainty:
      coefficientTypeA === null ? null : Math.hypot(coefficientTypeA, coefficientTypeB),
  };
}
