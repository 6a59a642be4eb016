/** What may be asked over HTTP, carried out: looking, acting on trials, choosing the source. */
import { zeroDoubt, zeroObstacle } from '#core/asking/zero-doubt.ts';
import { withCalibration, type Calibration, type Configuration } from '#core/configuration.ts';
import { calibrationBefore } from '#core/experiment/conductor/undo.ts';
import type { Calibrated } from '#core/experiment/conductor/undone.ts';
import type { Command } from '#core/experiment/command.ts';
import { AS_MEASURED, LineSchema } from '#core/experiment/correction.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import { notNow } from '#core/experiment/not-now.ts';
import { planObstacles } from '#core/experiment/plan/obstacles.ts';
import { addressOf } from '#core/experiment/trial-book.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import type { Action, Input } from '#core/inputs.ts';
import type { Board } from '#core/link.ts';
import type { Obstacle } from '#core/obstacle.ts';
import { commandObstacle } from '#core/pipeline/command.ts';
import { columnsObstacle } from '#core/reading/unnamed.ts';
import type {
  ActionRequest,
  BoardRequest,
  LinkRequest,
  SessionRequest,
  Status,
  TrialView,
} from '#core/live-messages.ts';
import { asOne } from '#core/experiment/budget/corrections.ts';
import { budgetAnswer, coefficientToTell, speedToTell } from '#core/experiment/budget/answer.ts';
import type { Recorder } from './recorder.ts';
import type { AppPort } from './routes/app-port.ts';
import { HttpError } from './routes/errors.ts';
import type { Scene } from './scene.ts';
import type { SessionFiles } from './session-files.ts';
import type { SessionInfo } from './store/store.ts';
import { DEFAULT_SEED, type ChosenSource } from './source-choice.ts';

/** Of those of a calibration before, how well they are known is forgotten. */
const MOST_CORRECTIONS = 8;

export interface OperatorParts {
  scene(): Scene;
  recorder(): Recorder;
  status(): Status;
  experiment(): ExperimentView;
  attached(): Promise<Board[]>;
  use(choice: ChosenSource): Promise<void>;
  /** Ends the demonstration that is played, and goes on with what was there before it. */
  useWhatWas(): Promise<void>;
  readonly dataFolder: string;
  /** Sessions that are kept, newest first. */
  sessions(): Promise<SessionInfo[]>;
  /** Every state of its trials that was committed. */
  revisions(sessionId: string): Promise<readonly TrialView[]>;
  /** A session's plan; null where there is none, or it can't be read. */
  planOf(sessionId: string): Promise<Plan | null>;
  goOnIn(request: SessionRequest): Promise<void>;
  readonly files: SessionFiles;
  /** What is set for a board. */
  settingsOf(linkId: string): Configuration;
  /** Keeps what is set for a board beyond this run. */
  keepSettings(linkId: string, settings: Configuration): Promise<void>;
}

export function createOperator(parts: OperatorParts): Omit<AppPort, 'network'> {
  return {
    seen: () => ({
      sessionId: parts.scene().session.id,
      experiment: parts.experiment(),
      newestTrialId: [...parts.scene().trials.keys()].at(-1) ?? null,
    }),
    status: () => parts.status(),
    trials: () => {
      const experiment = parts.experiment();
      return [...parts.scene().trials.values()].map((trial) => told(trial, experiment));
    },
    budget: (trialId) => {
      const trial = trialOf(parts.scene(), trialId);
      return budgetAnswer(trial, parts.experiment());
    },
    revisions: async (trialId) => {
      const scene = parts.scene();
      const { id } = trialOf(scene, trialId);
      const revisions = await parts.revisions(scene.session.id);
      return revisions.filter((one) => one.id === id);
    },
    plateaus: () => parts.scene().plateaus,
    boards: () => parts.attached(),
    experiment: () => parts.experiment(),
    command: async (command) => {
      refuseUnlessSaving(parts.status());
      refuseWhilePlaying(parts.status());
      const recorder = parts.recorder();
      refusePlan(command);
      const obstacle = commandObstacle(recorder.state(), command);
      if (obstacle !== null) throw refused(obstacle);
      const before = command.say === 'undo' ? calibrationBefore(recorder.state().conductor.ledger) : null;
      recorder.take({ kind: 'command', at_s: recorder.clock(), command });
      await recorder.flush();
      if (before !== null) await keepBefore(parts, before);
      return parts.experiment();
    },
    act: async (request) => {
      refuseUnlessSaving(parts.status());
      refuseWhilePlaying(parts.status());
      const trial = trialOf(parts.scene(), request.trialId);
      const recorder = parts.recorder();
      const action = toAction(request, addressOf(trial));
      refuseUnknownRun(action, parts.experiment());
      recorder.take({ kind: 'action', at_s: recorder.clock(), action });
      await recorder.flush();
      return told(trialOf(parts.scene(), request.trialId), parts.experiment());
    },
    sessions: async () => {
      const sessions = await parts.sessions();
      return Promise.all(
        sessions.map(async (session) => {
          const plan = await parts.planOf(session.id);
          return { ...session, question: plan?.question ?? null };
        }),
      );
    },
    planOf: async (id) => {
      await refuseUnknownSession(id, parts);
      return parts.planOf(id);
    },
    saveSession: (id) => parts.files.save(id),
    takeInSession: async (file) => {
      refuseUnlessSaving(parts.status());
      return parts.files.takeIn(file);
    },
    session: async (request) => {
      refuseUnlessSaving(parts.status());
      await parts.goOnIn(request);
    },
    useLink: async (request) => {
      // The run before would end, and the next one could not begin: nothing would be read.
      refuseUnlessSaving(parts.status());
      if (request.use === 'what-was') await parts.useWhatWas();
      else await parts.use(await choiceOf(request, parts));
    },
    wantOfBoard: async (request) => {
      refuseUnlessSaving(parts.status());
      refuseWhilePlaying(parts.status());
      const recorder = parts.recorder();
      const input = toInput(request, recorder);
      recorder.take(input);
      await recorder.flush();
      const { linkId } = recorder.state().reader;
      if (input.kind !== 'configured' || linkId === null) return;
      await parts.keepSettings(linkId, input.configuration);
    },
  };
}

/** A correction that was taken back comes back with no later start, whichever board is in use now. */
async function keepBefore(
  parts: OperatorParts,
  { boardId, quantity, was }: Calibrated,
): Promise<void> {
  await parts.keepSettings(boardId, withCalibration(parts.settingsOf(boardId), quantity, was));
}

/** What the operator does counts once it is on disk; while nothing can be saved, nobody waits. */
function refuseUnlessSaving({ store }: Status): void {
  if (store.ok) return;
  const why = store.message === null ? '' : ` ${store.message}`;
  throw new HttpError('saving-stopped', `Not done, because it can't be saved now: do it again when saving works.${why}`);
}

/** What is played was recorded long ago: nothing in it can be changed, and nothing of it is kept. */
function refuseWhilePlaying({ playing }: Status): void {
  if (playing === null) return;
  throw new HttpError('replay-only', 'This is a replay: nothing in it can be changed. End it first, under Sessions.');
}

function refuseUnknownRun(action: Action, { runs }: ExperimentView): void {
  if (action.kind !== 'move' || action.runId === null) return;
  if (runs.some(({ id }) => id === action.runId)) return;
  throw refused(notNow('run-unknown', action.runId));
}

/** A plan that can't be carried out is refused with every reason, before it is recorded. */
function refusePlan(command: Command): void {
  if (command.say !== 'plan' || command.plan === null) return;
  const obstacles = planObstacles(command.plan);
  if (obstacles.length === 0) return;
  const message = obstacles.map((one) => one.message).join(' ');
  throw new HttpError('plan-refused', message, obstacles.flatMap(({ kind, about }) => [kind, about]));
}

function refused({ message, about }: Obstacle): HttpError {
  return new HttpError('command-refused', message, about);
}

function trialOf(scene: Scene, id: number) {
  const trial = scene.trials.get(id);
  if (trial === undefined) throw new HttpError('trial-unknown', `There is no trial ${id}.`, [String(id)]);
  return trial;
}

/** A trial as it is told: with power coefficient and speed, by what is said of rotor and air now. */
function told(trial: TrialView, described: ExperimentView): TrialView {
  return {
    ...trial,
    powerCoefficient: coefficientToTell(trial, described),
    speed: speedToTell(trial, described),
  };
}

function toAction(request: ActionRequest, address: ReturnType<typeof addressOf>): Action {
  switch (request.kind) {
    case 'strike':
      return { kind: 'strike', ...address, reason: request.reason };
    case 'restore':
      return { kind: 'restore', ...address };
    case 'note':
      return { kind: 'note', ...address, text: request.text };
    case 'move':
      return { kind: 'move', ...address, runId: request.runId };
  }
}

/** The recorded form of a wish; refuses what can't be done, or should not be without being sure. */
function toInput(request: BoardRequest, recorder: Recorder): Input {
  const state = recorder.state();
  const at_s = recorder.clock();
  const { configuration } = state.reader;
  switch (request.want) {
    case 'rate': {
      const { sampleRate_Hz } = request;
      return { kind: 'configured', at_s, configuration: { ...configuration, sampleRate_Hz } };
    }
    case 'instrument': {
      const known = configuration.instrument;
      const { voltage = known.voltage, current = known.current } = request;
      const instrument = { voltage, current };
      return { kind: 'configured', at_s, configuration: { ...configuration, instrument } };
    }
    case 'correction': {
      const { quantity, line } = request;
      const before: Calibration = configuration.calibration[quantity] ?? AS_MEASURED;
      const put = asOne([{ gain: before.gain, offset: before.offset }, line]);
      if (!LineSchema.safeParse(put).success) {
        throw refused(notNow('no-calibration'));
      }
      const corrections = [...(before.corrections ?? []), line].slice(-MOST_CORRECTIONS);
      const corrected = withCalibration(configuration, quantity, { ...put, corrections });
      return { kind: 'configured', at_s, configuration: corrected, corrected: quantity };
    }
    case 'columns': {
      const { columns } = request;
      const obstacle = columns.length === 0 ? null : columnsObstacle(columns, configuration);
      if (obstacle !== null) throw new HttpError('columns-refused', obstacle.message, obstacle.about);
      return { kind: 'configured', at_s, configuration: { ...configuration, columns } };
    }
    case 'zero': {
      const obstacle = zeroObstacle(state, request.channel);
      if (obstacle !== null) throw new HttpError('zero-refused', obstacle.message, obstacle.about);
      const doubt = request.sure ? null : zeroDoubt(state.verdict);
      if (doubt !== null) throw new HttpError('zero-doubtful', doubt.message, doubt.about);
      return { kind: 'zero', at_s, channel: request.channel };
    }
  }
}

async function refuseUnknownSession(
  wanted: string,
  parts: Pick<OperatorParts, 'sessions'>,
): Promise<void> {
  if ((await parts.sessions()).some(({ id }) => id === wanted)) return;
  throw new HttpError('session-unknown', 'That session is not in this data folder.');
}

type WantedSource = Exclude<LinkRequest, { use: 'what-was' }>;

async function choiceOf(request: WantedSource, parts: OperatorParts): Promise<ChosenSource> {
  if (request.use === 'meters') return { kind: 'meters' };
  if (request.use === 'simulated') return { kind: 'simulated', seed: DEFAULT_SEED };
  if (request.use === 'session') {
    const { id: sessionId, speed } = request;
    await refuseUnknownSession(sessionId, parts);
    return { kind: 'session', folder: parts.dataFolder, sessionId, speed };
  }
  const attached = await parts.attached();
  if (!attached.some(({ id }) => id === request.id)) {
    throw new HttpError('board-unknown', 'That board is not attached any more. Plug it in and try again.');
  }
  return { kind: 'board', id: request.id };
}
