/** The store as the running server has it: its near end in the main thread. */
import type { Notice } from '#core/events.ts';
import { RecordingHeadSchema } from '#core/recording.ts';
import { createCommitQueue } from './commit-queue.ts';
import { dataFiles } from './data-folder.ts';
import { createHealth } from './health.ts';
import type { Store } from './store.ts';
import { scheduleUpkeep } from './upkeep-schedule.ts';
import { connectWriter } from './writer-connection.ts';

export interface StoreSettings {
  /** Input that may wait in memory while nothing can be saved. */
  readonly queueLimit_bytes: number;
  /** From opening to the check of the recorded input and the first copy of the data file. */
  readonly firstUpkeep_ms: number;
  readonly copyEvery_ms: number;
}

const DEFAULT_SETTINGS: StoreSettings = {
  queueLimit_bytes: 64 * 1024 * 1024,
  firstUpkeep_ms: 10_000,
  copyEvery_ms: 30 * 60_000,
};

/** @throws StoreError when another server has the folder, or it can't be used */
export async function openStore(
  dataFolder: string,
  settings: StoreSettings = DEFAULT_SETTINGS,
): Promise<Store> {
  const { folder } = dataFiles(dataFolder);
  const health = createHealth();
  const writer = await connectWriter(folder, health.writerState);
  const upkeep = scheduleUpkeep(folder, settings.firstUpkeep_ms, settings.copyEvery_ms);
  const queue = createCommitQueue(writer, health, settings.queueLimit_bytes);
  return {
    sessions: () => writer.call('sessions', []),
    newestSession: (origin) => writer.call('newestSession', [origin]),
    createSession: (name, origin, startedAt) =>
      writer.call('createSession', [{ name, origin, startedAt: startedAt.toISOString() }]),
    trials: (sessionId) => writer.call('trials', [sessionId]),
    revisions: (sessionId) => writer.call('revisions', [sessionId]),
    plateaus: (sessionId) => writer.call('plateaus', [sessionId]),
    learnt: (sessionId) => writer.call('learnt', [sessionId]),
    ledger: (sessionId) => writer.call('ledger', [sessionId]),
    takeIn: (stagedFolder) => writer.call('takeIn', [stagedFolder]),
    beginRecording: async (sessionId, startedAt, head) => {
      const checked = RecordingHeadSchema.parse(head);
      const recording = await writer.call('beginRecording', [sessionId, startedAt.toISOString(), checked]);
      health.recordingCut(null);
      return recording;
    },
    commit: queue.commit,
    onState: health.onState,
    problems: () => withoutRepeats([...writer.problems(), ...upkeep.problems()]),
    close: async () => {
      await upkeep.stop();
      await writer.close();
    },
  };
}

/** What was found on opening is found again by the check in the background. */
function withoutRepeats(problems: readonly Notice[]): Notice[] {
  return [...new Map(problems.map((problem) => [problem.message, problem])).values()];
}
