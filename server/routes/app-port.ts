import type { Readable } from 'node:stream';
import type { Command } from '#core/experiment/command.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import type {
  ActionRequest,
  BoardRequest,
  BudgetResponse,
  LinkRequest,
  PlateauView,
  SessionRequest,
  SessionsResponse,
  Status,
  TakenInResponse,
  TrialView,
} from '#core/live-messages.ts';
import type { Seen } from '#core/experiment/meant-for.ts';
import type { Board } from '#core/link.ts';
import type { NetworkPort } from './network-port.ts';

/** A file that is there to be sent, and to be removed then. */
export interface SavedFile {
  readonly path: string;
  /** What it is to be called where it is kept. */
  readonly name: string;
  remove(): void;
}

/** What the HTTP routes need of the running program; nothing else of it is reachable over HTTP. */
export interface AppPort {
  readonly network: NetworkPort;
  /** What an operator sees now, to be held against what was seen when a button was pressed. */
  seen(): Seen;
  status(): Status;
  /** Newest revision of each committed trial, oldest trial first. */
  trials(): TrialView[];
  /** Every state of a trial that was committed. Rejects with `HttpError('trial-unknown')`. */
  revisions(trialId: number): Promise<TrialView[]>;
  /** Where the uncertainty of a trial's power comes from. Throws `HttpError('trial-unknown')`. */
  budget(trialId: number): BudgetResponse;
  /** Closed plateaus, brief ones included, oldest first. */
  plateaus(): PlateauView[];
  /** Sessions that are kept, newest first. */
  sessions(): Promise<SessionsResponse['sessions']>;
  /** The plan of one of them; null where it has none. Rejects with `HttpError('session-unknown')`. */
  planOf(sessionId: string): Promise<Plan | null>;
  /**
   * Begins a session or goes on in an earlier one, with the same source. Rejects with
   * `HttpError('session-unknown')`, and with `HttpError('session-refused')` for one whose data come
   * from another kind of source.
   */
  session(request: SessionRequest): Promise<void>;
  /**
   * Writes the session's file. Rejects with `HttpError('session-unknown')`.
   */
  saveSession(id: string): Promise<SavedFile>;
  /** Takes in a session's file. Rejects with `HttpError('file-refused')`: nothing of it is here. */
  takeInSession(file: Readable): Promise<TakenInResponse>;
  /** The plan, where in it we are, and what is to be done now. */
  experiment(): ExperimentView;
  /**
   * Takes what the operator says of the experiment into the recording. Resolves with the experiment
   * as it is then. Rejects with `HttpError('plan-refused')` for a plan that can't be carried out, and
   * with `HttpError('command-refused')` for what can't be done now.
   */
  command(command: Command): Promise<ExperimentView>;
  /** The serial devices seen now; an empty list where they can't be listed. */
  boards(): Promise<Board[]>;
  /**
   * Carries out an operator's action. Resolves with the trial as it stands once that is on disk.
   * Rejects with `HttpError('trial-unknown')` when there is no such trial.
   */
  act(request: ActionRequest): Promise<TrialView>;
  /**
   * Takes up another source of lines. Resolves once the change has begun; how the port fares is in
   * the status. Rejects with `HttpError('board-unknown')` when no such board is attached.
   */
  useLink(request: LinkRequest): Promise<void>;
  /**
   * Takes the operator's wish into the recording; what the board makes of it is in the status.
   * Rejects with `HttpError('zero-refused')` where no zero can be taken, and with
   * `HttpError('zero-doubtful')` where it should not be without a second thought.
   */
  wantOfBoard(request: BoardRequest): Promise<void>;
}
