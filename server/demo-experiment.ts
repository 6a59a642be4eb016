/**
 * `npm run demo:experiment`: a whole experiment on the simulated rig, five blade angles in three
 * rounds, through the real server. Nobody touches the page; the operator at the rig does what the
 * tool says, and has a slip, a bump, a cable pulled out, and a run for which the fan was not
 * stopped. At the end it is counted what became of it, against what the rig truly did.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WebSocket } from 'ws';
import type { Plan } from '#core/experiment/plan/plan.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import type { Trial } from '#core/experiment/trial.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import { LiveMessageSchema } from '#core/live-messages.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { createDemoRig, type DemoRig } from '#core/virtual-rig/demo.ts';
import { isRight, truthOf } from '#core/virtual-rig/truth.ts';
import { startApp } from './app.ts';
import { readArguments, readNumber } from './commands/arguments.ts';
import { exitCodeOf, sentenceOf } from './commands/exit-errors.ts';
import { playedTime } from './run-time.ts';
import { openStoreReader } from './store/reader.ts';

const SPEEDS = { low: 0.01, high: 1000, whole: false };

interface Outcome {
  /** Runs planned. */
  readonly runs: number;
  /** Runs whose trial carries the level that the rig was at, and the true power within its 95 % or 1 %. */
  readonly right: number;
  /** What was said or done on the page after the plan was given. */
  readonly touches: number;
  /** Trials that were told as logged and are not stored. */
  readonly lost: number;
  /** Questions that the tool put. */
  readonly asked: number;
}

async function main(argv: readonly string[]): Promise<void> {
  const options = {
    seed: { type: 'string' },
    speed: { type: 'string' },
    json: { type: 'boolean' },
  } as const;
  const { values } = readArguments(argv, options, 0);
  const seed = readNumber('seed', values.seed ?? '1', { low: 0, high: 2 ** 31, whole: true });
  const speed = values.speed === undefined ? null : readNumber('speed', values.speed, SPEEDS);
  const dataFolder = await mkdtemp(join(tmpdir(), 'stillmark-demo-'));
  try {
    const outcome = await play({ dataFolder, seed, speed }, (line) => console.error(line));
    console.log(values.json ? JSON.stringify(outcome) : inWords(outcome));
  } finally {
    await rm(dataFolder, { recursive: true, force: true });
  }
}

interface Setting {
  readonly dataFolder: string;
  readonly seed: number;
  /** How much faster than life; null: as fast as it will go. */
  readonly speed: number | null;
}

async function play(
  { dataFolder, seed, speed }: Setting,
  say: (line: string) => void,
): Promise<Outcome> {
  let demo: DemoRig | null = null;
  const app = await startApp({
    dataFolder,
    source: { kind: 'simulated', seed },
    speed: 1,
    port: 0,
    host: '127.0.0.1',
    demonstration: { createRig: (of) => (demo = createDemoRig(of)), speed, time: playedTime() },
  });
  say(`Watch it here: ${app.url}`);
  const { runs, told } = await watchToTheEnd(app.url, anglePlan(seed)).finally(() => app.close());
  if (demo === null) throw new Error('the rig was never made');
  const truth = truthOf(demo);
  const { trials, touches, asked } = stored(dataFolder);
  // The newest trial of each run, in its last revision.
  const newest = runs.map(({ trialIds }) => trials.findLast(({ id }) => id === trialIds.at(-1)));
  return {
    runs: runs.length,
    right: newest.filter((trial) => trial !== undefined && isRight(truth, trial)).length,
    touches,
    lost: [...told].filter((id) => !trials.some((trial) => trial.id === id)).length,
    asked,
  };
}

interface Shown {
  readonly runs: ExperimentView['runs'];
  /** Numbers of the trials that were told as logged. */
  readonly told: ReadonlySet<number>;
}

/** Gives the plan, and then only looks. */
async function watchToTheEnd(url: string, plan: Plan): Promise<Shown> {
  const { told, finished } = watch(url);
  const response = await fetch(new URL('/api/experiment', url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ say: 'plan', plan }),
  });
  if (!response.ok) throw new Error(`the plan was not taken: ${await response.text()}`);
  const { runs } = await finished;
  return { runs, told };
}

/** Follows the live feed like a page, up to the last step. */
function watch(url: string) {
  const told = new Set<number>();
  const { host, origin } = new URL(url);
  const socket = new WebSocket(`ws://${host}/live`, { origin });
  const finished = new Promise<ExperimentView>((resolve, reject) => {
    socket.on('error', reject);
    socket.on('close', () => reject(new Error('the live feed broke off')));
    socket.on('message', (data) => {
      const message = LiveMessageSchema.parse(JSON.parse(String(data)));
      if (message.type === 'trial') told.add(message.trial.id);
      if (message.type !== 'experiment' || message.experiment.step !== 'finished') return;
      resolve(message.experiment);
      socket.close();
    });
  });
  return { told, finished };
}

/**
 * What was recorded: every revision of every trial, the operator's doings but for the plan, and the
 * questions put.
 */
function stored(dataFolder: string) {
  const reader = openStoreReader(dataFolder);
  const trials: Trial[] = [];
  let touches = -1;
  let asked = 0;
  for (const { id, head } of reader.sessions().flatMap((one) => reader.recordings(one.id))) {
    let state = begin(head, id);
    trials.push(...reader.trialRevisions(id));
    for (const input of reader.inputs(id)) {
      if (input.kind === 'action' || input.kind === 'command') touches += 1;
      const before = state.conductor.question;
      state = step(state, input).state;
      const { question } = state.conductor;
      if (question !== null && question !== before) asked += 1;
    }
  }
  reader.close();
  return { trials, touches, asked };
}

function inWords({ runs, right, touches, lost, asked }: Outcome): string {
  return [
    `${runs} runs planned, ${right} of them right: the level that the rig was truly at, and the true`,
    'power within the 95 % interval, or within 1 %. (Of 20 honest intervals of 95 %, one misses.)',
    `The page was touched ${touches} times, ${lost} trials were lost, ${asked} questions were asked.`,
  ].join('\n');
}

main(process.argv.slice(2)).catch((error: unknown) => {
  console.error(sentenceOf(error));
  process.exitCode = exitCodeOf(error);
});
