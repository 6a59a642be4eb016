/** What the pipeline carries from one input to the next. */
import { createAsking, type Asking } from '../asking/asking.ts';
import { createConductor, type Conductor } from '../experiment/conductor/conductor.ts';
import { createBook, type TrialBook } from '../experiment/trial-book.ts';
import type { LinkHealth } from '../link.ts';
import { createReader, type Reader } from '../reading/reader.ts';
import type { RecordingHead } from '../recording.ts';
import { createRigWatch, type RigWatch } from '../rig-check/watch.ts';
import type { Verdict } from '../signal/plateau.ts';
import { createVoltages, type Voltages } from '../signal/ripple/voltages.ts';
import { createDetector, type Detector } from '../signal/settling/detector.ts';

/** Owned by the caller; `step` changes it in place and hands it back. */
export interface PipelineState {
  readonly recordingId: number;
  readonly origin: RecordingHead['origin'];
  readonly reader: Reader;
  readonly detector: Detector;
  /** The newest readings as they came. */
  readonly voltages: Voltages;
  readonly book: TrialBook;
  readonly conductor: Conductor;
  rigWatch: RigWatch;
  asking: Asking;
  health: LinkHealth;
  /** Arrival times, recording clock; null while no link is open. */
  openedAt_s: number | null;
  lastLineAt_s: number | null;
  /** As it came; "" before there is one. */
  lastLine: string;
  lastSampleAt_s: number | null;
  /** Stream time of the newest sample since the last interruption. */
  lastSampleTime_s: number | null;
  /** The newest one of the readings that go on. */
  verdict: Verdict | null;
  /** Number of the trial that the open plateau has been logged as. */
  openTrialId: number | null;
}

/** The state before the first input of a recording. The book carries the session's earlier trials. */
export function begin(
  head: RecordingHead,
  recordingId: number,
  book: TrialBook = createBook(),
): PipelineState {
  book.nextId = Math.max(book.nextId, head.firstTrialId);
  return {
    recordingId,
    origin: head.origin,
    reader: createReader(head.configuration),
    detector: createDetector(head.learnt),
    voltages: createVoltages(),
    book,
    conductor: createConductor(head.experiment),
    rigWatch: createRigWatch(),
    asking: createAsking(),
    health: 'closed',
    openedAt_s: null,
    lastLineAt_s: null,
    lastLine: '',
    lastSampleAt_s: null,
    lastSampleTime_s: null,
    verdict: null,
    openTrialId: null,
  };
}
