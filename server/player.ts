/**
 * A stored session played as a demonstration: its recorded inputs go through the pipeline again, in
 * their own time or faster, and every page shows what came of them. Nothing of it is stored.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { createBook } from '#core/experiment/trial-book.ts';
import { TrialSchema } from '#core/experiment/trial.ts';
import { plateauView, type PlateauView, type Playing, type TrialView } from '#core/live-messages.ts';
import { numberOf } from '#core/recording.ts';
import { createRecorder } from './recorder.ts';
import type { Run, RunListener } from './run.ts';
import { openStoreReader, type StoreReader } from './store/reader.ts';
import { storedTrial } from './store/rows.ts';
import type { RecordingInfo, SessionInfo, Store } from './store/store.ts';

export interface PlayedSession {
  /** The data folder that it lies in. */
  readonly folder: string;
  readonly sessionId: string;
  /** How much faster than it was recorded; null: as fast as it will go. */
  readonly speed: number | null;
}

export interface PlayedRun extends Pick<Run, 'recorder' | 'close'> {
  /** From here on things are told. */
  open(): void;
}

/** What is on the stage, recording after recording. */
export interface Player {
  readonly session: SessionInfo;
  playing(): Playing;
  /** What the recordings before this one gave. */
  readonly trials: ReadonlyMap<number, TrialView>;
  readonly plateaus: readonly PlateauView[];
  recordingNumber(): number;
  /** Begins the recording that is up. `over` is called after its last input, if nobody ended it. */
  begin(listener: RunListener, over: () => void): PlayedRun;
  /** The recording after it; false when there is none. */
  next(): boolean;
  close(): void;
}

/** The session's recordings, or nothing where none has been begun. */
export function openPlayer({ folder, sessionId, speed }: PlayedSession): Player | null {
  const reader = openStoreReader(folder);
  const session = reader.sessions().find(({ id }) => id === sessionId);
  const recordings = session === undefined ? [] : reader.recordings(session.id);
  if (session === undefined || recordings.length === 0) {
    reader.close();
    return null;
  }
  const trials = new Map<number, TrialView>();
  const plateaus: PlateauView[] = [];
  let at = 0;
  const recording = (): RecordingInfo => {
    const one = recordings[at];
    if (one === undefined) throw new Error(`there is no recording ${at}`);
    return one;
  };
  const startOf = new Map(recordings.map((one) => [numberOf(one), one.startedAt]));
  const memory: Pick<Store, 'commit'> = {
    commit: (_id, commit) => {
      const number = numberOf(recording());
      plateaus.push(...commit.plateaus.map((plateau) => plateauView(number, plateau)));
      const views = commit.trials.map((trial) => {
        const startedAt = startOf.get(trial.recordingId) ?? session.startedAt;
        return storedTrial(trial, startedAt, JSON.stringify(TrialSchema.parse(trial)));
      });
      for (const view of views) trials.set(view.id, view);
      return Promise.resolve(views);
    },
  };
  return {
    session,
    trials,
    plateaus,
    playing: () => ({
      speed,
      startedAt: recording().startedAt,
      recording: at + 1,
      recordings: recordings.length,
    }),
    recordingNumber: () => numberOf(recording()),
    begin: (listener, over) => {
      const info = { ...recording(), id: numberOf(recording()) };
      // A book of full trials: views of them are trials, too.
      const book = createBook([...trials.values()].map((view) => ({ recorded_s: 0, ...view })));
      const told = { ...listener, ask: () => undefined };
      const recorder = createRecorder(memory, info, () => 0, book, told);
      const stop = new AbortController();
      let finished: Promise<void> = Promise.resolve();
      return {
        recorder,
        open: () => {
          listener.port({ phase: 'replaying', file: session.name });
          finished = play(reader.inputs(recording().id), speed, recorder.take, stop.signal)
            .then(async () => {
              await recorder.flush();
              if (!stop.signal.aborted) over();
            })
            .catch((error: unknown) => {
              if (stop.signal.aborted) return;
              const message = error instanceof Error ? error.message : String(error);
              listener.port({ phase: 'ended', message });
            });
        },
        close: async () => {
          stop.abort();
          await finished;
          await recorder.close();
        },
      };
    },
    next: () => {
      if (at + 1 >= recordings.length) return false;
      at += 1;
      return true;
    },
    close: () => reader.close(),
  };
}

type Take = ReturnType<typeof createRecorder>['take'];

/** Everything else has its turn at least this often. */
const TURN_MS = 15;

async function play(
  inputs: ReturnType<StoreReader['inputs']>,
  speed: number | null,
  take: Take,
  signal: AbortSignal,
): Promise<void> {
  const began_ms = performance.now();
  let turn_ms = began_ms;
  for (const input of inputs) {
    const due_ms = speed === null ? 0 : began_ms + (input.at_s / speed) * 1000;
    const wait_ms = due_ms - performance.now();
    if (wait_ms > 1 || performance.now() - turn_ms > TURN_MS) {
      await pause(Math.max(0, wait_ms), undefined, { signal });
      turn_ms = performance.now();
    }
    if (signal.aborted) return;
    take(input);
  }
}
