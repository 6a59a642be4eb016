/** `npm run bench:choosing -- [experiments]`: how often choosing errs, how soon it names, what advice saves. */
import { markdown as table } from '../settling/table.ts';
import { CONTESTS, TIES, type Configuration } from './configurations.ts';
import { advised, equalRounds, playExperiment, type Look, type Policy } from './experiment.ts';
import { PROCEDURES, type Procedure } from './procedures.ts';
import { bestOf, makeTrial, nextDrift } from './rig.ts';
import type { LevelTrial } from '#core/experiment/choosing/level-trial.ts';
import { adviseNext } from '#core/experiment/choosing/advise-next.ts';
import { createRandom, shuffled } from '#core/virtual-rig/random.ts';

const ROUNDS = 8;
const ROUNDS_SHOWN = [2, 3, 4, 6];
/** Where an experiment that is not settled ends. */
const MOST_TRIALS = 120;

const percent = (part: number, whole: number): string => `${((100 * part) / whole).toFixed(1)}`;

interface Course {
  /** Rounds after which the true best was named and nobody else. */
  readonly named: readonly boolean[];
  readonly lost: boolean;
  readonly wrong: boolean;
}

/** What a procedure says of these rounds, asked as it wants to be. */
function courseOf(procedure: Procedure, rounds: readonly (readonly LevelTrial[])[], bests: readonly number[]): Course {
  const levels = rounds[0]!.map((_, level) => level);
  const trials: LevelTrial[] = [];
  const named: boolean[] = [];
  let [lost, wrong] = [false, false];
  for (const round of rounds) {
    let possible: readonly number[] = levels;
    for (const [i, trial] of round.entries()) {
      trials.push(trial);
      if (procedure.asked === 'every round' && i < round.length - 1) continue;
      possible = procedure.possible(trials, levels);
      lost ||= bests.some((best) => !possible.includes(best));
      wrong ||= possible.length === 1 && (bests.length > 1 || possible[0] !== bests[0]);
    }
    named.push(possible.length === 1 && bests.length === 1 && possible[0] === bests[0]);
  }
  return { named, lost, wrong };
}

function roundsOf({ truth }: Configuration, seed: number): LevelTrial[][] {
  const random = createRandom(seed);
  const levels = truth.powers.map((_, level) => level);
  return Array.from({ length: ROUNDS }, (_, block) => {
    const factor = nextDrift(random, truth);
    return shuffled(random, levels).map((level) => makeTrial(random, { truth, level, block, factor }));
  });
}

function coursesOf(procedure: Procedure, configuration: Configuration, experiments: number): Course[] {
  const bests = bestOf(configuration.truth);
  return seeds(experiments).map((seed) =>
    courseOf(procedure, roundsOf(configuration, seed), bests),
  );
}

function compareProcedures(experiments: number): void {
  const names = PROCEDURES.map(({ name }) => name);
  const rows = (
    configurations: readonly Configuration[],
    cell: (courses: readonly Course[]) => string,
  ): string[][] =>
    configurations.map((configuration) => [
      configuration.name,
      ...PROCEDURES.map((procedure) => cell(coursesOf(procedure, configuration, experiments))),
    ]);
  const errors = (courses: readonly Course[]): string => {
    const lost = courses.filter((course) => course.lost).length;
    const wrong = courses.filter((course) => course.wrong).length;
    return `${percent(lost, experiments)} (${percent(wrong, experiments)})`;
  };
  const named = (courses: readonly Course[]): string =>
    ROUNDS_SHOWN.map((round) => {
      const count = courses.filter((course) => course.named[round - 1]).length;
      return ((100 * count) / experiments).toFixed(0);
    }).join(' ');
  console.log(
    `\n## Procedures: a true best ruled out at any look of ${ROUNDS} rounds, %` +
      ' (a single best named wrongly, %)\n',
  );
  console.log(table(['', ...names], rows(TIES.slice(0, 8), errors)));
  console.log(`\n## Procedures: the best named after ${ROUNDS_SHOWN.join(', ')} rounds, %\n`);
  console.log(table(['', ...names], rows(CONTESTS.slice(0, 12), named)));
}

function measureErrors(experiments: number): void {
  console.log('\n## The tool: a true best ruled out at any look, % (a single best named wrongly, %)\n');
  const cell = ({ truth }: Configuration, policy: Policy): string => {
    const most = ROUNDS * truth.powers.length;
    const ends = seeds(experiments).map((seed) =>
      playExperiment(truth, { seed, policy, most, goOn: true }),
    );
    const lost = ends.filter((looks) => looks.at(-1)!.lost).length;
    const bests = bestOf(truth);
    const isWrong = ({ best }: Look): boolean =>
      best !== null && (bests.length > 1 || best !== bests[0]);
    const wrong = ends.filter((looks) => looks.some(isWrong)).length;
    return `${percent(lost, experiments)} (${percent(wrong, experiments)})`;
  };
  console.log(
    table(
      ['', 'whole rounds', 'as advised'],
      [...TIES, ...CONTESTS].map((configuration) => [
        configuration.name,
        cell(configuration, equalRounds),
        cell(configuration, advised),
      ]),
    ),
  );
}

/** The least number of trials from which the leader is right in `share` of the experiments on. */
function trialsUntilRight(ends: readonly (readonly Look[])[], share: number): number {
  const isRight = (looks: readonly Look[], trials: number): boolean =>
    (looks[Math.min(trials, looks.length) - 1]?.leader ?? -1) === 0;
  for (let trials = MOST_TRIALS; trials > 0; trials--) {
    const right = ends.filter((looks) => isRight(looks, trials)).length;
    if (right < share * ends.length) return trials + 1;
  }
  return 1;
}

function measureSavings(experiments: number): void {
  console.log(`\n## Trials until the best is named (at most ${MOST_TRIALS}), and until the leader is right in 95 %\n`);
  const rows = CONTESTS.map(({ name, truth }) => {
    const play = (policy: Policy): Look[][] =>
      seeds(experiments).map((seed) => playExperiment(truth, { seed, policy, most: MOST_TRIALS, goOn: false }));
    const [whole, sets] = [play(equalRounds), play(advised)];
    const mean = (ends: Look[][]): number =>
      ends.reduce((sum, looks) => sum + looks.length, 0) / experiments;
    const right = (ends: Look[][]): string =>
      percent(ends.filter((looks) => looks.at(-1)!.best === 0).length, experiments);
    return [
      name,
      `${mean(whole).toFixed(1)} (${right(whole)})`,
      `${mean(sets).toFixed(1)} (${right(sets)})`,
      `${(100 * (1 - mean(sets) / mean(whole))).toFixed(0)} %`,
      `${trialsUntilRight(whole, 0.95)}`,
      `${trialsUntilRight(sets, 0.95)}`,
    ];
  });
  const heads = ['', 'whole rounds (named right, %)', 'as advised (named right, %)', 'saved', 'leader, rounds', 'leader, advised'];
  console.log(table(heads, rows));
}

/** How many more trials are forecast at the first contest, beside how many it took. */
function measureForecast(experiments: number): void {
  console.log('\n## Forecast after three rounds, trials: forecast, truly (quartiles); a tie called, %\n');
  const rows = [...CONTESTS, ...TIES.slice(0, 6)].map(({ name, truth }) => {
    const levels = truth.powers.map((_, level) => level);
    const forecasts: number[] = [];
    const truly: number[] = [];
    let ties = 0;
    for (const seed of seeds(experiments)) {
      const start = 3 * levels.length;
      let tie = false;
      const policy: Policy = (random, done, all) => {
        if (done.length < start) return equalRounds(random, done, all);
        const advice = adviseNext({ trials: done, levels: all, left: [] });
        if (done.length === start && advice.trialsNeeded !== null) forecasts.push(advice.trialsNeeded);
        if (advice.kind === 'tie') tie = true;
        return advice.set.map(({ level }) => Number(level));
      };
      const looks = playExperiment(truth, { seed, policy, most: MOST_TRIALS, goOn: false });
      if (looks.length > start) truly.push(looks.length - start);
      if (tie) ties++;
    }
    return [name, quartiles(forecasts), quartiles(truly), percent(ties, experiments)];
  });
  console.log(table(['', 'forecast', 'truly', 'tie called'], rows));
}

function quartiles(values: readonly number[]): string {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))]!;
  return sorted.length === 0 ? '–' : `${at(0.25)} ${at(0.5)} ${at(0.75)}`;
}

function seeds(count: number): number[] {
  return Array.from({ length: count }, (_, i) => i + 1);
}

const SUITES = {
  procedures: compareProcedures,
  errors: measureErrors,
  savings: measureSavings,
  forecast: measureForecast,
} as const;

const [which, count] = process.argv.slice(2);
const names = Object.keys(SUITES) as (keyof typeof SUITES)[];
const chosen = names.filter((name) => which === undefined || name === which);
const experiments = Number(count ?? 1000);
if (chosen.length === 0 || !Number.isInteger(experiments) || experiments < 1) {
  console.error(`Usage: npm run bench:choosing -- [${names.join('|')}] [experiments]`);
  process.exit(2);
}
for (const name of chosen) SUITES[name](experiments);
console.log(`\n${experiments} experiments each, seeds from 1 on.`);
