/**
 * `npm run bench:played -- [--from N] [--count N]`: whole experiments on the simulated rig, and how
 * far each trial lies from what the rig truly gave, in its own standard uncertainties. An honest
 * 95 % interval holds the truth 95 times in 100, at every level.
 */
import { parseArgs } from 'node:util';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import { isRight, truePower_W, truthOf } from '#core/virtual-rig/truth.ts';
import { playExperiment } from '../../support/played-experiment.ts';

interface Result {
  readonly angle_deg: string;
  readonly isRight: boolean;
  readonly isHeld: boolean;
  /** Relative to the truth: how far off, what the trial says of that, and half its interval. */
  readonly error: number;
  readonly u: number;
  readonly expanded: number;
}

function resultsOf(seed: number): Result[] {
  const { view, trials, demo } = playExperiment(seed, anglePlan(seed));
  const truth = truthOf(demo);
  return view.runs.flatMap(({ trialIds }) => {
    const trial = trials.find(({ id }) => id === trialIds.at(-1));
    if (trial === undefined || trial.power_W === null) return [];
    const true_W = truePower_W(truth, trial);
    const error = trial.power_W.value / true_W - 1;
    const u = (trial.power_W.standardUncertainty ?? NaN) / true_W;
    const expanded = (expandedUncertainty(trial.power_W) ?? NaN) / true_W;
    const angle_deg = `${String(trial.factors['angle_deg'])}°`;
    const isHeld = Math.abs(error) <= expanded;
    return [{ angle_deg, isRight: isRight(truth, trial), isHeld, error, u, expanded }];
  });
}

const share = (results: readonly Result[], has: (one: Result) => boolean): string =>
  (results.filter(has).length / results.length).toFixed(3);
const rms = (results: readonly Result[], of: (one: Result) => number): number =>
  Math.sqrt(results.reduce((sum, one) => sum + of(one) ** 2, 0) / results.length);

function row(name: string, results: readonly Result[]): string {
  const cells = [
    name,
    String(results.length),
    share(results, (one) => one.isRight),
    share(results, (one) => one.isHeld),
    rms(results, ({ error, u }) => error / u).toFixed(2),
    `${(100 * rms(results, ({ error }) => error)).toFixed(2)} %`,
    `${(100 * rms(results, ({ u }) => u)).toFixed(2)} %`,
    `${(100 * rms(results, ({ expanded }) => expanded)).toFixed(2)} %`,
  ];
  return `| ${cells.join(' | ')} |`;
}

const options = { from: { type: 'string' }, count: { type: 'string' } } as const;
const { values } = parseArgs({ options });
const [from, count] = [Number(values.from ?? 1), Number(values.count ?? 20)];
const played = Array.from({ length: count }, (_, i) => resultsOf(from + i));
const all = played.flat();
console.log('| level | trials | right | in 95 % | rms of z | rms error | rms u | rms U |');
console.log('| --- | --- | --- | --- | --- | --- | --- | --- |');
const angles = [...new Set(all.map(({ angle_deg }) => angle_deg))];
for (const angle of angles.sort((a, b) => parseFloat(a) - parseFloat(b))) {
  console.log(row(angle, all.filter(({ angle_deg }) => angle_deg === angle)));
}
console.log(row('all', all));
const whole = played.filter((results) => results.every((one) => one.isRight)).length;
console.log(`Every run right in ${whole} of ${count} experiments.`);
