/**
 * Scenes with a plan, made up: five blade angles in three rounds, and where it can stand. The runs
 * are those that the program makes of the plan.
 */
import { PlanSchema, type Plan } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { NO_EXPERIMENT, type ExperimentView, type RunView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import { LOGGED_9, messagesOf, SCENES, trial, type Snapshot } from './scenes.ts';

export const PLAN: Plan = PlanSchema.parse({
  question: 'Which blade angle gives the most power?',
  factors: [
    {
      kind: 'angle',
      key: 'angle_deg',
      name: 'Blade angle',
      levels: [10, 25, 40, 55, 80].map((value) => ({ label: `${value}°`, value })),
    },
  ],
  design: 'single',
  rounds: 3,
  order: 'random',
  seed: 5,
  constants: [{ name: 'Fan', value: 'middle' }],
  finishBy: '14:45',
});

/** Power of a level as a made-up rig gives it, mW; the last one does not turn. */
const POWERS_mW = [172, 257, 237, 101, 0];
const SCATTER_mW = [0, 4, -5, 7, -3, 2, 6, -6];

/** Trials of the first runs of a plan, as the rig would give them. */
export function trialsOf(runs: readonly { id: string; levels: readonly number[] }[], count: number): TrialView[] {
  return runs.slice(0, count).map(({ id, levels }, i) => {
    const power = POWERS_mW[levels[0] ?? 0] ?? 150;
    const wanted = power === 0 ? 0 : power + (SCATTER_mW[i % SCATTER_mW.length] ?? 0);
    return trial(i + 1, wanted, { runId: id });
  });
}

/** The experiment with so many runs done, at a step. */
export function experimentAt(
  plan: Plan,
  done: number,
  more: Partial<ExperimentView> = {},
): ExperimentView {
  const all = runsOf(plan);
  const runs: RunView[] = all.map((run, i) => ({
    ...run,
    status: i < done ? 'done' : i === done ? 'now' : 'open',
    trialIds: i < done ? [i + 1] : [],
  }));
  return {
    ...NO_EXPERIMENT,
    plan,
    runs,
    step: 'settling',
    runId: runs[done]?.id ?? null,
    nextRunId: runs[done + 1]?.id ?? null,
    isWindHeard: true,
    ...more,
  };
}

/** Nine runs done; the tenth, 40° for the second time, is at work. */
const AT_WORK = experimentAt(PLAN, 9);
export const RUNS = AT_WORK.runs;

interface Planned {
  /** The scene whose readings are seen meanwhile. */
  readonly scene: string;
  readonly experiment: ExperimentView;
  /** Trials there are; those of the runs done, unless said otherwise. */
  readonly trials?: readonly TrialView[];
}

const struck = (trials: TrialView[]): TrialView[] =>
  trials.map((one) =>
    one.id === 3 ? { ...one, struck: true, strikeReason: 'blade slipped' } : one,
  );

/** The tenth run just logged. */
const JUST_LOGGED = experimentAt(PLAN, 10, {
  step: 'logged',
  runId: RUNS[9]?.id ?? null,
  nextRunId: RUNS[10]?.id ?? null,
  undoes: { what: 'strike', trialId: 3, place: 1 },
});

const at = (step: ExperimentView['step'], more: Partial<ExperimentView> = {}): ExperimentView =>
  experimentAt(PLAN, 9, { step, ...more });

const LENGTH: Plan['factors'][number] = {
  kind: 'length',
  key: 'length_m',
  name: 'Blade length',
  levels: [
    { label: 'short, 60 mm', value: 0.06 },
    { label: 'long, 100 mm', value: 0.1 },
  ],
  baseLevel: 0,
};

/** Two factors, every combination. */
const FACTORIAL: Plan = { ...PLAN, design: 'factorial', factors: [...PLAN.factors, LENGTH], rounds: 2 };
/** Levels that are only names, and as long as they may be; groups, repeats and a reference run in between. */
const NAMED: Plan = {
  ...PLAN,
  question: 'Which tip gives the most power?',
  factors: [
    {
      kind: 'own',
      key: 'tip',
      name: 'Blade tip',
      levels: ['square, as it was cut', 'rounded by sandpaper', 'swept back, of thin wood'].map(
        (label) => ({ label, value: null }),
      ),
      baseLevel: 0,
    },
  ],
  rounds: 2,
  repeats: 2,
  groups: ['red table', 'blue table'],
  reference: { every: 6, levels: [0] },
};
/** More runs than the rail can show at once. */
const MANY: Plan = { ...PLAN, rounds: 12 };

/** Trial 9 has no run: nobody asked for it. */
const STRAY = trialsOf(RUNS, 9).map((one) => (one.id === 9 ? { ...one, runId: null } : one));

/** Trial 8 crawled: many digits behind the point, and as many in all that stands beside. */
const CRAWLED = trialsOf(RUNS, 9).map((one) => (one.id === 8 ? { ...one, ...crawling() } : one));

function crawling(): Pick<TrialView, 'power_W' | 'voltage_V' | 'current_A'> {
  const of = (value: number, standardUncertainty: number) => ({ value, standardUncertainty, degreesOfFreedom: 9 });
  return { power_W: of(3.92e-5, 2.5e-6), voltage_V: of(0.0166, 1e-4), current_A: of(0.00236, 1e-5) };
}

export const PLANNED: Readonly<Record<string, Planned>> = {
  settling: { scene: 'settling', experiment: AT_WORK },
  logged: {
    scene: 'logged',
    experiment: JUST_LOGGED,
    trials: [
      ...struck(trialsOf(RUNS, 9)),
      { ...LOGGED_9, id: 10, runId: RUNS[9]?.id ?? null },
    ],
  },
  'stop-fan': { scene: 'still', experiment: at('stop-fan') },
  'blades-stopping': { scene: 'running-down', experiment: at('blades-stopping') },
  'set-blades': { scene: 'waiting', experiment: at('set-blades') },
  'set-blades-unheard': { scene: 'waiting', experiment: at('set-blades', { isWindHeard: false }) },
  /** The step says that they stand, the readings that they turn. */
  'set-blades-turning': { scene: 'spinning-up', experiment: at('set-blades') },
  'start-fan': { scene: 'waiting', experiment: at('start-fan') },
  finished: { scene: 'waiting', experiment: experimentAt(PLAN, 15, { step: 'finished' }) },
  'nothing-done': {
    scene: 'waiting',
    experiment: experimentAt(PLAN, 0, { step: 'set-blades', predictions: { '25°': 12 } }),
  },
  paused: { scene: 'settling', experiment: at('settling', { isWaiting: true }) },
  'is-fan-on': {
    scene: 'waiting',
    experiment: at('start-fan', { isWindHeard: false, question: { kind: 'is-fan-on' } }),
  },
  'lamp-loose': {
    scene: 'settling',
    experiment: at('settling', {
      findings: [
        { kind: 'no-current', channel: 'current_A', value: 2.43, trialId: null },
        { kind: 'needs-flick', channel: null, value: 8, trialId: null },
      ],
    }),
  },
  unsettled: {
    scene: 'unsettled',
    experiment: at('settling', { question: { kind: 'unsettled', cause: 'cycle' } }),
  },
  unassigned: {
    scene: 'waiting',
    experiment: at('set-blades', { question: { kind: 'unassigned', trialId: 9 } }),
    trials: STRAY,
  },
  doubt: {
    scene: 'settling',
    experiment: at('settling', {
      doubts: [{ trialId: 7, kind: 'far-from-others', message: 'far', share: 0.12 }],
    }),
  },
  skipped: {
    scene: 'settling',
    trials: CRAWLED,
    experiment: {
      ...AT_WORK,
      runs: AT_WORK.runs.map((run, i) => (i === 12 ? { ...run, status: 'skipped' as const } : run)),
    },
  },
  covered: {
    scene: 'settling',
    experiment: at('settling', { isCovered: true, predictions: { '25°': 12, '40°': 7, '80°': 1 } }),
  },
  revealed: {
    scene: 'settling',
    experiment: at('settling', { predictions: { '25°': 12, '40°': 7, '80°': 1 } }),
  },
  factorial: { scene: 'settling', experiment: experimentAt(FACTORIAL, 13) },
  named: { scene: 'settling', experiment: experimentAt(NAMED, 8) },
  many: { scene: 'settling', experiment: experimentAt(MANY, 41) },
};

/** A snapshot of a scene with its plan. */
export function plannedSnapshot(name: string): Snapshot {
  const planned = PLANNED[name];
  const scene = SCENES[planned?.scene ?? ''];
  if (planned === undefined || scene === undefined) throw new Error(`there is no scene ${name}`);
  const done = planned.experiment.runs.filter(({ status }) => status === 'done').length;
  return {
    ...scene,
    experiment: planned.experiment,
    trials: [...(planned.trials ?? trialsOf(planned.experiment.runs, done))],
  };
}

export function plannedMessages(name: string): ReturnType<typeof messagesOf> {
  return [plannedSnapshot(name)];
}
