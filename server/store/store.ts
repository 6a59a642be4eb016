import type { ClosedPlateau, Notice } from '#core/events.ts';
import type { Ledger } from '#core/experiment/conductor/ledger.ts';
import type { Trial } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import type { PlateauView, StoreState, TrialView } from '#core/live-messages.ts';
import type { RecordingHead } from '#core/recording.ts';
import type { Learnt } from '#core/signal/learnt.ts';

/** Where a session's data come from. */
export type Origin = RecordingHead['origin'];

export interface SessionInfo {
  readonly id: string;
  readonly name: string;
  /** RFC 3339. */
  readonly startedAt: string;
  /** What its data are: sessions never mix origins. */
  readonly origin: Origin;
}

/**
 * What became of a session that was taken in. new: it was not here; grown: more of it is here now;
 * known: all of it was here already; apart: it had gone on here and elsewhere, so it is beside the
 * one that was here, as a session of its own.
 */
export interface TakenIn {
  readonly outcome: 'new' | 'grown' | 'known' | 'apart';
  /** As it is here. */
  readonly session: SessionInfo;
}

/** A session and when its newest recording began (RFC 3339). */
export type UsedSession = SessionInfo & { readonly usedAt: string };

/** One run of the server within a session. */
export interface RecordingInfo {
  readonly id: number;
  readonly sessionId: string;
  /** RFC 3339 wall-clock time of recording time zero. */
  readonly startedAt: string;
  readonly head: RecordingHead;
  /** `process.versions.v8`: replay promises bit-identity only within one engine major version. */
  readonly engineVersion: string;
}

/** A trial with what only its row in the store knows. Serves as a `Trial` and as a `TrialView`. */
export type StoredTrial = Trial & Pick<TrialView, 'recordedAt' | 'checksum'>;

/**
 * What was derived and what it was derived from, committed together or not at all, so that the
 * stored trials are always exactly what the stored input gives.
 */
export interface Commit {
  readonly inputs: readonly Input[];
  readonly trials: readonly Trial[];
  readonly plateaus: readonly ClosedPlateau[];
  /** What the detector has learnt by now, when it has learnt something since the commit before. */
  readonly learnt?: Learnt | null;
  /** What is decided about the experiment by now, when it is another than at the commit before. */
  readonly ledger?: Ledger | null;
}

/** The store as the running server sees it. All writing happens in one worker thread. */
export interface Store {
  /** Every session that is kept, newest first. */
  sessions(): Promise<SessionInfo[]>;
  /** The session of this origin that was in use last, to resume it; null when there is none. */
  newestSession(origin: Origin): Promise<UsedSession | null>;
  createSession(name: string, origin: Origin, startedAt: Date): Promise<SessionInfo>;
  /** Newest intact revision of each trial of the session, by number; damaged rows are reported. */
  trials(sessionId: string): Promise<StoredTrial[]>;
  /** Every intact revision of the session's trials, in the order of their commits. */
  revisions(sessionId: string): Promise<StoredTrial[]>;
  plateaus(sessionId: string): Promise<PlateauView[]>;
  /** What the detector had learnt by the session's newest commit that says so. */
  learnt(sessionId: string): Promise<Learnt | null>;
  /** What was decided about the experiment by the session's newest commit that says so. */
  ledger(sessionId: string): Promise<Ledger | null>;
  /**
   * Takes in the one session of another data folder: all of it or nothing (take-in.ts).
   * @param stagedFolder one that nothing else uses, checked (stage.ts)
   */
  takeIn(stagedFolder: string): Promise<TakenIn>;
  beginRecording(sessionId: string, startedAt: Date, head: RecordingHead): Promise<RecordingInfo>;
  /**
   * Resolves with the stored trials once the transaction is on disk (`synchronous=FULL`).
   * Commits happen in the order they are asked for. On a full disk, a detached drive or a damaged
   * file it waits and tries again by itself; `onState` says so meanwhile. Memory holds 64 MB of
   * waiting input: beyond that, or when something can't be stored, it rejects with a `StoreError`,
   * and so does every later commit of that recording, because a recording with a hole could not
   * be derived again. What is stored of it stays; a new recording may begin.
   */
  commit(recordingId: number, commit: Commit): Promise<StoredTrial[]>;
  /** Called on every change of whether saving works. */
  onState(listener: (state: StoreState) => void): void;
  /** What a person should know of the data folder: damage found, restored copies, network drives. */
  problems(): readonly Notice[];
  /** Saves what waits (one last attempt when saving fails), then lets go of the data folder. */
  close(): Promise<void>;
}
