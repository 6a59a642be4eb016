/** What a report finds in a session's numbers. */
import { describe, expect, it } from 'vitest';
import { analysisOf } from '#core/experiment/analysis/analysis.ts';
import { PlanSchema } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import type { ShownTrial } from '#core/experiment/trial.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import { trialOf } from '../web/fixtures.ts';

const ANGLE = {
  kind: 'angle',
  key: 'angle_deg',
  name: 'Blade angle',
  levels: [10, 25, 40].map((value) => ({ label: `${value}°`, value })),
};
const LENGTH = {
  kind: 'length',
  key: 'length_m',
  name: 'Blade length',
  levels: [60, 100].map((value) => ({ label: `${value} mm`, value: value / 1000 })),
};
const PLAN = { question: 'Which?', factors: [ANGLE], design: 'single', rounds: 3, order: 'random', seed: 1 };

function viewOf(more: Record<string, unknown> = {}): ExperimentView {
  const plan = PlanSchema.parse({ ...PLAN, constants: [{ name: 'Fan', value: 'middle' }], ...more });
  const runs = runsOf(plan).map((run, i) => ({ ...run, status: 'done' as const, trialIds: [i + 1] }));
  return { ...NO_EXPERIMENT, plan, runs };
}

/** A trial of each run: power by its levels, changed by its place in the order. */
const trialsOf = (
  { runs }: ExperimentView,
  power_mW: (levels: readonly number[], place: number) => number,
): ShownTrial[] =>
  runs.map(({ id, levels }, place) =>
    trialOf(place + 1, power_mW(levels, place), {
      runId: id,
      windSpeed_mps: { value: 4, standardUncertainty: 0.01, degreesOfFreedom: 30 },
    }),
  );
/** Made up, with no trend and no pattern by level. */
const WANDER_mW = [1, -2, 2, -1, 0, 2, -2, 1, -1, 2, -1, 0, 1, -2, 2, -1, 1, 0];
const quiet = (levels: readonly number[], place: number): number =>
  [100, 160, 80][levels[0] ?? 0]! + (WANDER_mW[place] ?? 0);
const kindsOf = (view: ExperimentView, trials: readonly ShownTrial[]) =>
  analysisOf(view, trials)!.improvements.map(({ kind }) => kind);

describe('the analysis', () => {
  it('is none without a plan, and one without a trial', () => {
    expect(analysisOf(NO_EXPERIMENT, [])).toBeNull();
    const [part] = analysisOf(viewOf(), [])!.parts;
    expect(part).toMatchObject({ residuals: [], scatter: null, crept: null, budgeted: null });
  });

  it('has residuals that add up to nothing at each level', () => {
    const view = viewOf();
    const [part] = analysisOf(view, trialsOf(view, quiet))!.parts;
    expect(part!.residuals).toHaveLength(9);
    for (const level of [10, 25, 40]) {
      const sum = part!.residuals
        .filter((one) => one.level === level)
        .reduce((total, { residual_W }) => total + residual_W, 0);
      expect(sum).toBeCloseTo(0, 12);
    }
  });

  it('takes the scatter of setting anew as a pooled relative standard deviation', () => {
    const view = viewOf({ factors: [{ ...ANGLE, levels: ANGLE.levels.slice(0, 2) }] });
    // ±10 % about 100 mW and ±10 % about 200 mW: Σ(d/mean)² = 2 · 0.02 on 2 · (3 − 1) degrees.
    const seen = [0, 0];
    const trials = trialsOf(view, ([level = 0]) => [[90, 110, 100], [180, 220, 200]][level]![seen[level]!++]!);
    const [part] = analysisOf(view, trials)!.parts;
    expect(part!.scatter).toEqual({ share: expect.closeTo(0.1, 10) as number, degreesOfFreedom: 4 });
  });

  it('finds nothing to mend where nothing is wrong', () => {
    const view = viewOf();
    expect(kindsOf(view, trialsOf(view, quiet))).toEqual(['instruments-unknown']);
  });

  it('finds a drift with its size, and says nothing of one where there is none', () => {
    const view = viewOf();
    const falling = trialsOf(view, (levels, place) => quiet(levels, place) - 4 * place);
    const drift = analysisOf(view, falling)!.improvements.find(({ kind }) => kind === 'drift');
    // 4 mW a trial over the 8 steps from the first to the last, of a mean of 113.4 − 16 mW.
    expect(drift).toMatchObject({ share: expect.closeTo(-32 / 97.3, 1) as number });
    expect(analysisOf(view, falling)!.parts[0]!.crept!.p).toBeLessThan(0.05);
  });

  it.each([
    ['few-rounds', viewOf({ rounds: 2 }), quiet, {}],
    ['listed-order', viewOf({ order: 'listed' }), quiet, {}],
    ['nothing-constant', viewOf({ constants: [] }), quiet, {}],
    ['scatter', viewOf(), (levels: readonly number[], place: number) => quiet(levels, place) * (1 + 0.2 * (WANDER_mW[place]! / 2)), {}],
    ['wind-not-measured', viewOf(), quiet, { windSpeed_mps: null }],
    ['struck', viewOf(), quiet, { struck: true }],
  ] as const)('finds %s', (kind, view, power_mW, change) => {
    const trials = trialsOf(view, power_mW);
    const isAll = kind === 'wind-not-measured';
    expect(kindsOf(view, trials.map((one, i) => (isAll || i === 4 ? { ...one, ...change } : one)))).toContain(kind);
  });

  it('finds an unsteady wind, beyond what its readings are uncertain by', () => {
    const view = viewOf();
    const blown = (standardUncertainty: number) =>
      trialsOf(view, quiet).map((one, i) => ({
        ...one,
        windSpeed_mps: { value: i % 2 === 0 ? 3.7 : 4.3, standardUncertainty, degreesOfFreedom: 30 },
      }));
    expect(kindsOf(view, blown(0.01))).toContain('wind-unsteady');
    expect(kindsOf(view, blown(0.4))).not.toContain('wind-unsteady');
  });

  it('of a varied fan has the power curve, and no advice to keep the wind steady', () => {
    const levels = [1, 2, 3].map((value) => ({ label: `step ${value}`, value }));
    const view = viewOf({ factors: [{ kind: 'fan', key: 'fan', name: 'Fan setting', levels }] });
    const air = { temperature_degC: 20, pressure_Pa: 101_325, altitude_m: null, relativeHumidity: 0.5 };
    const rotorAndAir = { radius_m: 0.2, hubRadius_m: 0, air, anemometer: null, traverse: null };
    const trials = trialsOf(view, quiet).map((one, i) => {
      const wind = 3 + (view.runs[i]!.levels[0] ?? 0) * 0.5;
      return { ...one, windSpeed_mps: { value: wind, standardUncertainty: 0.01, degreesOfFreedom: 30 } };
    });
    const [part] = analysisOf({ ...view, rotorAndAir }, trials)!.parts;
    expect(part!.powerCurve.map(({ middle_mps, count }) => [middle_mps, count])).toEqual([[3, 3], [3.5, 3], [4, 3]]);
    // CIPM-2007: 1.1993 kg/m³ at 20 °C, 101 325 Pa, 50 %; power is brought to 1.225 kg/m³.
    expect(part!.powerCurve[1]!.power_W / 0.16).toBeCloseTo(1.225 / 1.1993, 2);
    expect(kindsOf({ ...view, rotorAndAir }, trials)).not.toContain('wind-unsteady');
    expect(analysisOf(view, trials)!.parts[0]!.powerCurve).toEqual([]);
  });

  it('says what can’t be concluded', () => {
    const once = viewOf({ rounds: 1 });
    const analysis = analysisOf(once, trialsOf(once, quiet))!;
    expect(analysis.openQuestions).toEqual(['once-each', 'beyond-levels', 'this-rig']);
    const series = viewOf({ factors: [ANGLE, LENGTH], design: 'series', order: 'listed' });
    const made = trialsOf(series, quiet).map((one) => ({ ...one, simulated: true }));
    expect(analysisOf(series, made)!.openQuestions).toEqual([
      'not-equal', 'beyond-levels', 'interaction', 'order', 'simulated',
    ]);
    expect(analysisOf(series, made)!.parts.map(({ answer }) => answer.factor.key)).toEqual(['angle_deg', 'length_m']);
  });

  it('of two factors together has the mean of each combination, and their interaction', () => {
    const view = viewOf({ factors: [ANGLE, LENGTH], design: 'factorial' });
    const trials = trialsOf(view, (levels, place) => quiet(levels, place) + (levels[1] === 1 && levels[0] === 1 ? 60 : 0));
    const { twoFactors } = analysisOf(view, trials)!.parts[0]!;
    expect(twoFactors!.cells.map((row) => row.map((cell) => Math.round(100 * cell!.mean!)))).toEqual([
      [10, 10],
      [16, 22],
      [8, 8],
    ]);
    expect(twoFactors!.table!.interaction!.p).toBeLessThan(1e-6);
    expect(twoFactors!.table!.interaction!.df).toBe(2);
  });
});

describe('levels in the same wind', () => {
  const WINDS = [4.3, 4.0, 4.1, 3.8, 4.2, 3.9, 3.7, 4.05, 3.95];
  const inWinds = (view: ExperimentView, exponent: number): ShownTrial[] =>
    trialsOf(view, (levels, place) => {
      const noise = 1 + (WANDER_mW[place] ?? 0) / 400;
      return [100, 160, 80][levels[0] ?? 0]! * ((WINDS[place] ?? 4) / 4) ** exponent * noise;
    }).map((trial, place) => ({
      ...trial,
      windSpeed_mps: { value: WINDS[place] ?? 4, standardUncertainty: 0.01, degreesOfFreedom: 30 },
    }));

  it('are offered where power went with the wind, and are what the rig gave', () => {
    const view = viewOf();
    const { sameWind } = analysisOf(view, inWinds(view, 3))!.parts[0]!;
    expect(sameWind?.windSpeed_mps).toBeCloseTo(4, 1);
    const [low, high] = sameWind!.exponentLimits;
    expect(low < 3 && 3 < high && high - low < 1).toBe(true);
    const scale = ((sameWind?.windSpeed_mps ?? NaN) / 4) ** 3;
    for (const [level, power_mW] of [[10, 100], [25, 160], [40, 80]] as const) {
      const found = sameWind!.levels.find((one) => one.level === level)!;
      const ratio = (1000 * found.mean_W) / (power_mW * scale);
      expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
      expect(found.low_W < found.mean_W && found.mean_W < found.high_W).toBe(true);
    }
  });

  it('are not, where it did not, where the wind was the same, and where the fan is the question', () => {
    const view = viewOf();
    expect(analysisOf(view, inWinds(view, 0))!.parts[0]!.sameWind).toBeNull();
    expect(analysisOf(view, trialsOf(view, quiet))!.parts[0]!.sameWind).toBeNull();
    const fan = viewOf({ factors: [{ ...ANGLE, kind: 'fan', key: 'fan', name: 'Fan' }] });
    expect(analysisOf(fan, inWinds(fan, 3))!.parts[0]!.sameWind).toBeNull();
  });
});
