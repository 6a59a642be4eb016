/** What the viewers are shown of the current run, gathered from events as they come. */
import type { ClosedPlateau, Notice } from '#core/events.ts';
import type { Board, PortState } from '#core/link.ts';
import {
  plateauView,
  type FaultCounts,
  type PlateauView,
  type Playing,
  type Status,
  type StoreState,
  type TrialView,
} from '#core/live-messages.ts';
import type { PipelineState } from '#core/pipeline/state.ts';
import { unnamedFields } from '#core/reading/unnamed.ts';
import { FAULT_KINDS } from '#protocol/frame.ts';
import { boardView } from './board-view.ts';
import type { ShownEvent } from './recorder.ts';
import type { SessionInfo } from './store/store.ts';
import { VERSION } from './version.ts';

/** Notices shown at once; older ones make room. */
const NOTICES_KEPT = 5;

export interface Scene {
  readonly session: SessionInfo;
  readonly recordingId: number;
  readonly trials: Map<number, TrialView>;
  readonly plateaus: PlateauView[];
  readonly faults: FaultCounts;
  notices: readonly Notice[];
  port: PortState;
  openSince_s: number | null;
  /** Not null while a stored session is played. */
  readonly playing: Playing | null;
}

/** What outlives a run: the boards that could be used, and whether saving works. */
export interface Surroundings {
  readonly offers: readonly Board[];
  readonly store: StoreState;
  /** Counts what has changed about the room's network and who may operate. */
  readonly networkChange: number;
  /** What a person should know of the data folder. */
  readonly problems: readonly Notice[];
}

export function createScene(
  session: SessionInfo,
  recordingId: number,
  trials: readonly TrialView[],
  plateaus: readonly PlateauView[],
  playing: Playing | null = null,
): Scene {
  return {
    session,
    recordingId,
    trials: new Map(trials.map((trial) => [trial.id, trial])),
    plateaus: [...plateaus],
    faults: Object.fromEntries(FAULT_KINDS.map((kind) => [kind, 0])) as FaultCounts,
    notices: [],
    port: { phase: 'searching' },
    openSince_s: null,
    playing,
  };
}

/** Takes an event into the scene. Returns whether the status is another one now. */
export function showEvent(scene: Scene, event: ShownEvent): boolean {
  switch (event.kind) {
    case 'fault':
      scene.faults[event.fault] += event.count;
      return true;
    case 'notice':
      addNotice(scene, event.notice);
      return true;
    case 'health':
    case 'board':
      return true;
    case 'declared':
      scene.openSince_s = event.start_s;
      return false;
    case 'sample':
    case 'judged':
      return false;
  }
}

/** Takes what has been committed into the scene. */
export function showCommitted(
  scene: Scene,
  trials: readonly TrialView[],
  plateaus: readonly ClosedPlateau[],
): PlateauView[] {
  for (const trial of trials) scene.trials.set(trial.id, trial);
  if (plateaus.length > 0) scene.openSince_s = null;
  const views = plateaus.map((plateau) => plateauView(scene.recordingId, plateau));
  scene.plateaus.push(...views);
  return views;
}

/** Newest last; one said again moves to the end, one that is over goes. */
function addNotice(scene: Scene, notice: Notice): void {
  const others = scene.notices.filter(({ message }) => message !== notice.message);
  scene.notices = notice.isOver ? others : [...others, notice].slice(-NOTICES_KEPT);
}

export function statusOf(
  scene: Scene,
  state: Pick<PipelineState, 'health' | 'reader' | 'asking'>,
  { offers, store, networkChange, problems }: Surroundings,
): Status {
  const { id, name, startedAt, origin } = scene.session;
  const { health, reader } = state;
  const period_s = reader.samplePeriod_s;
  return {
    version: VERSION,
    session: { id, name, startedAt },
    recordingId: scene.recordingId,
    simulated: origin === 'simulated',
    playing: scene.playing,
    port: scene.port,
    health,
    sampleRate_Hz: period_s === null || period_s <= 0 ? null : 1 / period_s,
    unnamedFields: unnamedFields(reader),
    namedColumns: reader.layoutOrigin === 'configured' ? reader.configuration.columns : [],
    wantedSampleRate_Hz: reader.configuration.sampleRate_Hz,
    board: boardView(state),
    clockDrift_ppm: reader.clockDrift_ppm,
    offers: [...offers],
    faults: { ...scene.faults },
    store,
    networkChange,
    notices: [...problems, ...scene.notices],
  };
}
