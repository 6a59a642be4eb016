import { createBook, type TrialBook } from '#core/experiment/trial-book.ts';
import type { Trial } from '#core/experiment/trial.ts';
import { CORE_VERSION } from '#core/recording.ts';
import { deriveAgain } from '../carry/derive.ts';
import { temporaryFolder } from '../carry/temporary.ts';
import { unpackSession } from '../carry/unpack.ts';
import { StoreError } from '../store/errors.ts';
import { openStoreReader, type StoreReader } from '../store/reader.ts';
import type { RecordingInfo } from '../store/store.ts';
import { readArguments } from './arguments.ts';
import { compareTrials, type Difference } from './replay-differences.ts';
import { InputError } from './exit-errors.ts';
import { unknownSession } from './sessions-known.ts';

interface SessionResult {
  readonly session: string;
  readonly recordings: number;
  readonly stored: number;
  readonly derived: number;
  readonly differences: readonly Difference[];
  /** Recordings whose stored input can't be read back: they are left out. */
  readonly damaged: readonly { readonly recording: number; readonly message: string }[];
}

/** `stillmark replay`: derives stored trials again from the stored input, and reports differences. */
export async function replay(argv: readonly string[]): Promise<number> {
  const options = {
    data: { type: 'string' },
    session: { type: 'string' },
    json: { type: 'boolean' },
  } as const;
  const { values, positionals } = readArguments(argv, options, 1);
  const [file] = positionals;
  if (file !== undefined && values.data !== undefined) {
    throw new InputError('unexpected-argument', 'Name a data folder or a file, not both. See stillmark help.');
  }
  if (file !== undefined) return replayFile(file, values.json ?? false);
  if (values.data === undefined) {
    throw new InputError('missing-data-folder', 'Name the data folder: stillmark replay --data DIR, or a file: stillmark replay FILE.zip');
  }
  return replayFolder(values.data, values.session, values.json ?? false);
}

/** A session's file is unpacked into a data folder of its own for the while. */
function replayFile(file: string, json: boolean): number {
  const stage = temporaryFolder();
  try {
    unpackSession(file, stage.path);
    return replayFolder(stage.path, undefined, json);
  } finally {
    stage.remove();
  }
}

function replayFolder(folder: string, wanted: string | undefined, json: boolean): number {
  const reader = openStoreReader(folder);
  try {
    const sessions = reader.sessions().filter(({ id }) => wanted === undefined || id === wanted);
    if (sessions.length === 0 && wanted !== undefined) {
      throw unknownSession(wanted, folder, reader.sessions());
    }
    const results = sessions.map(({ id }) => replaySession(reader, id));
    report(results, json);
    if (results.some(({ differences }) => differences.length > 0)) return 4;
    return results.some(({ damaged }) => damaged.length > 0) ? 2 : 0;
  } finally {
    reader.close();
  }
}

function replaySession(reader: StoreReader, session: string): SessionResult {
  const recordings = reader.recordings(session);
  const book = createBook();
  const differences: Difference[] = [];
  const damaged: { recording: number; message: string }[] = [];
  let [storedCount, derivedCount] = [0, 0];
  for (const recording of recordings) {
    const stored = reader.trialRevisions(recording.id);
    const derived = orDamage(() => revisionsAgain(reader, recording, book));
    if (derived instanceof StoreError) {
      damaged.push({ recording: recording.id, message: derived.message });
      continue;
    }
    storedCount += stored.length;
    derivedCount += derived.length;
    differences.push(...compareTrials(stored, derived, isSameProgram(recording)));
  }
  return {
    session,
    recordings: recordings.length,
    stored: storedCount,
    derived: derivedCount,
    differences,
    damaged,
  };
}

/** What is damaged in one recording says nothing against the others. */
function orDamage<T>(derive: () => T): T | StoreError {
  try {
    return derive();
  } catch (error) {
    if (error instanceof StoreError && error.code === 'data-damaged') return error;
    throw error;
  }
}

/** Every revision that the recording's inputs give, in order. */
function revisionsAgain(reader: StoreReader, recording: RecordingInfo, book: TrialBook): Trial[] {
  const derived: Trial[] = [];
  for (const { events } of deriveAgain(reader, recording, book)) {
    for (const event of events) if (event.kind === 'trial') derived.push(event.trial);
  }
  return derived;
}

/** Bit-identity is promised only within one core version and one engine major version. */
function isSameProgram({ head, engineVersion }: RecordingInfo): boolean {
  const major = (version: string): string | undefined => version.split('.')[0];
  return head.coreVersion === CORE_VERSION && major(engineVersion) === major(process.versions.v8);
}

function report(results: readonly SessionResult[], json: boolean): void {
  for (const { session, damaged } of results) {
    for (const { recording, message } of damaged) {
      console.error(`recording ${recording} of ${session} is left out: ${message} Its trials stand as stored.`);
    }
  }
  if (json) {
    console.log(JSON.stringify({ sessions: results }, null, 2));
    return;
  }
  if (results.length === 0) console.log('No session stored here yet.');
  for (const { session, recordings, stored, differences } of results) {
    const verdict = differences.length === 0 ? 'identical' : `${differences.length} differences`;
    console.log(`${session}: ${recordings} recordings, ${stored} trial revisions, ${verdict}`);
    for (const { trialId, revision, field, stored: was, derived } of differences) {
      console.log(`  trial ${trialId} revision ${revision} ${field}: stored ${was}, derived ${derived}`);
    }
  }
}
