/** `npm run bench:doubts -- [experiments]`: how often sound trials are pointed at, and wrong ones. */
import { markdown as table } from '../settling/table.ts';
import { CONFIGURATIONS, type Configuration } from './configurations.ts';
import { everDoubted, trialsOf, type Fault } from './experiment.ts';
import type { Doubt } from '#core/experiment/view.ts';

const KINDS = ['far-from-others', 'wind-drift', 'power-drift'] as const;

const experiments = Number(process.argv[2] ?? 1000);
if (!Number.isInteger(experiments) || experiments < 1) {
  console.error('Usage: npm run bench:doubts -- [experiments]');
  process.exit(2);
}
const seeds = Array.from({ length: experiments }, (_, i) => i + 1);

/** The share of experiments that somebody is pointed at something in, %. */
function share(
  configuration: Configuration,
  faultOf: (seed: number) => Fault,
  isMeant: (doubt: Doubt, fault: Fault) => boolean,
): string {
  const met = seeds.filter((seed) => {
    const fault = faultOf(seed);
    return everDoubted(configuration, fault, seed).some((doubt) => isMeant(doubt, fault));
  });
  return ((100 * met.length) / experiments).toFixed(1);
}

const sound = (): Fault => ({});
const falseAlarms = CONFIGURATIONS.map((configuration) => {
  const count = trialsOf(configuration, {}, 1).length;
  const cells = KINDS.map((kind) => share(configuration, sound, (doubt) => doubt.kind === kind));
  return [configuration.name, String(count), ...cells, share(configuration, sound, () => true)];
});
console.log(`\n## Nothing wrong: pointed at any trial at any look, % of experiments\n`);
console.log(table(['', 'runs', ...KINDS, 'any'], falseAlarms));

/** The how-manieth trial goes wrong: another one in each experiment, and never the first of all. */
const place = (configuration: Configuration, seed: number): number => {
  const count = trialsOf(configuration, {}, seed).length;
  return 2 + (seed % (count - 1));
};
const found = CONFIGURATIONS.map((configuration) => [
  configuration.name,
  share(
    configuration,
    (seed) => ({ slippedTrial: place(configuration, seed) }),
    ({ kind, trialId }, { slippedTrial }) => kind === 'far-from-others' && trialId === slippedTrial,
  ),
  ...[0.95, 0.9].map((windShare) =>
    share(
      configuration,
      () => ({ wind: { from: 10, share: windShare } }),
      ({ kind, trialId }) => kind === 'wind-drift' && trialId >= 10,
    ),
  ),
  ...[0.1, 0.2].map((fading) =>
    share(configuration, () => ({ fading }), ({ kind }) => kind === 'power-drift'),
  ),
]);
console.log('\n## Something wrong: pointed at it at any look, % of experiments\n');
console.log(
  table(
    ['', 'set wrong by one level', 'wind 5 % less', 'wind 10 % less', 'fading by 10 %', 'fading by 20 %'],
    found,
  ),
);
console.log(`\n${experiments} experiments each, seeds from 1 on.`);
