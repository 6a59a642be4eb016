import type { ClosedPlateau } from '#core/events.ts';
import type { Trial } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import type { PlateauView, StoreState, TrialView } from '#core/live-messages.ts';
import type { RecordingHead } from '#core/recording.ts';

export interface SessionInfo {
  readonly id: string;
  readonly name: string;
  /** RFC 3339. */
  readonly startedAt: string;
  readonly simulated: boolean;
}

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

/**
 * What was derived and what it was derived from, committed together or not at all, so that the
 * stored trials are always exactly what the stored input gives.
 */
export interface Commit {
  readonly inputs: readonly Input[];
  readonly trials: readonly Trial[];
  readonly plateaus: readonly ClosedPlateau[];
}

/** The store as the running server sees it. All writing happens in one worker thread. */
export interface Store {
  /** The newest session that matches, to resume it; null when there is none. */
  newestSession(simulated: boolean): Promise<SessionInfo | null>;
  createSession(name: string, simulated: boolean, startedAt: Date): Promise<SessionInfo>;
  /** Newest revision of each trial of the session, oldest trial first, damaged rows left out and reported. */
  trials(sessionId: string): Promise<TrialView[]>;
  plateaus(sessionId: string): Promise<PlateauView[]>;
  beginRecording(sessionId: string, startedAt: Date, head: RecordingHead): Promise<RecordingInfo>;
  /**
   * Resolves with the stored trials once the transaction is on disk (`synchronous=FULL`).
   * Commits happen in the order they are asked for. On a full disk it waits and tries again;
   * nothing is dropped within the stated bound, and `onState` says so meanwhile.
   */
  commit(recordingId: number, commit: Commit): Promise<TrialView[]>;
  /** Called on every change of whether saving works. */
  onState(listener: (state: StoreState) => void): void;
  close(): Promise<void>;
}
