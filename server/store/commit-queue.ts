/**
 * What waits to be saved, with a bound. A recording is stored without holes or not further: from
 * the first commit that can't be taken, no more of that recording are.
 */
import { TrialSchema } from '#core/experiment/trial.ts';
import { ClosedPlateauSchema } from './closed-plateau.ts';
import { StoreError } from './errors.ts';
import type { Health } from './health.ts';
import { packInputs, splitInputs } from './input-codec.ts';
import type { PackedCommit } from './rows.ts';
import type { Commit, StoredTrial } from './store.ts';
import type { WriterConnection } from './writer-connection.ts';

/** A generous figure for the JSON of one trial or plateau. */
const ROW_SIZE_bytes = 1500;

export interface CommitQueue {
  commit(recordingId: number, commit: Commit): Promise<StoredTrial[]>;
}

export function createCommitQueue(
  writer: WriterConnection,
  health: Pick<Health, 'recordingCut'>,
  limit_bytes: number,
): CommitQueue {
  const cut = new Map<number, StoreError>();
  let waiting_bytes = 0;

  async function commit(recordingId: number, commit: Commit): Promise<StoredTrial[]> {
    const refused = cut.get(recordingId);
    if (refused !== undefined) throw refused;
    try {
      return await send(recordingId, commit);
    } catch (error) {
      const reason = toStoreError(error);
      if (!cut.has(recordingId)) {
        cut.set(recordingId, reason);
        health.recordingCut(reason.message);
      }
      throw reason;
    }
  }

  async function send(recordingId: number, commit: Commit): Promise<StoredTrial[]> {
    const packed = packCommit(commit);
    const size_bytes = sizeOf(packed);
    if (waiting_bytes + size_bytes > limit_bytes) throw queueFull(limit_bytes);
    waiting_bytes += size_bytes;
    const buffers = packed.chunks.map((chunk) => chunk.buffer as ArrayBuffer);
    try {
      return await writer.call('commit', [recordingId, packed], buffers);
    } finally {
      waiting_bytes -= size_bytes;
    }
  }

  return { commit };
}

/** Checked here, before anything is queued: what does not fit its schema could not be read back. */
function packCommit(commit: Commit): PackedCommit {
  const { inputs, trials, plateaus, learnt = null, ledger = null } = commit;
  return {
    chunks: splitInputs(inputs).map(packInputs),
    trials: trials.map((trial) => TrialSchema.parse(trial)),
    plateaus: plateaus.map((plateau) => ClosedPlateauSchema.parse(plateau)),
    learnt,
    ledger,
  };
}

function sizeOf({ chunks, trials, plateaus }: PackedCommit): number {
  const input_bytes = chunks.reduce((sum, chunk) => sum + chunk.length, 0);
  return input_bytes + (trials.length + plateaus.length) * ROW_SIZE_bytes;
}

function queueFull(limit_bytes: number): StoreError {
  const limit_MB = Math.round(limit_bytes / 2 ** 20);
  return new StoreError(
    'save-queue-full',
    `More than ${limit_MB} MB of readings wait to be saved: what comes now is shown but not kept. ` +
      'What was logged before is safe. Once saving works again, begin a new recording.',
  );
}

function toStoreError(error: unknown): StoreError {
  if (error instanceof StoreError) return error;
  const message = `A result can't be stored, a fault in Stillmark: ${String(error)}`;
  return new StoreError('not-storable', message, { cause: error });
}
