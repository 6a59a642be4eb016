/** A run: one source feeding one recording of one session, from the first input to the last. */
import { DEFAULT_CONFIGURATION, type Configuration } from '#core/configuration.ts';
import { isDeepStrictEqual } from 'node:util';
import { instructionOf } from '#core/experiment/conductor/instruction.ts';
import type { TrialBook } from '#core/experiment/trial-book.ts';
import type { Input } from '#core/inputs.ts';
import type { Instruction } from '#core/virtual-rig/led-operator.ts';
import { CORE_VERSION, type RecordingHead } from '#core/recording.ts';
import { createRecorder, type Recorder, type RecorderListener } from './recorder.ts';
import type { RunTime } from './run-time.ts';
import type { RecordingClock, Source, SourceListener } from './sources/source.ts';
import type { SessionInfo, Store } from './store/store.ts';

/** Time passes for the pipeline at least this often, though nothing arrives. */
const TICK_EVERY_S = 0.5;

export interface Run {
  readonly recorder: Recorder;
  /** What somebody at the rig is told now. */
  readonly instruction: () => Instruction;
  /** Opens the source; from here on things are told. */
  open(openSource: (clock: RecordingClock, listener: SourceListener) => Source): void;
  close(reason: 'ended' | 'replaced'): Promise<void>;
}

export type RunListener = Omit<RecorderListener, 'ask'> & Pick<SourceListener, 'port' | 'offers'>;

/** What a recording begins with. */
export interface Beginning {
  readonly origin: RecordingHead['origin'];
  /** The session's trials so far. */
  readonly book: TrialBook;
  /** What the operator has set for the board with this identity. */
  settingsOf(linkId: string): Configuration;
}

/** Begins a recording in the session. */
export async function beginRun(
  store: Store,
  session: SessionInfo,
  { origin, book, settingsOf }: Beginning,
  listener: RunListener,
  { clock, every, sleptFor_s }: RunTime,
): Promise<Run> {
  const info = await store.beginRecording(session.id, new Date(), {
    coreVersion: CORE_VERSION,
    origin,
    configuration: DEFAULT_CONFIGURATION,
    firstTrialId: book.nextId,
    learnt: await store.learnt(session.id),
    experiment: await store.ledger(session.id),
    number: null,
  });
  let source: Source | null = null;
  const recorder = createRecorder(store, info, clock, book, {
    ...listener,
    ask: (request) => source?.ask(request),
  });
  let lastInputAt_s = 0;
  const tellSleep = () => {
    const lasted_s = sleptFor_s();
    if (lasted_s > 0) recorder.take({ kind: 'slept', at_s: clock(), lasted_s });
  };
  const stopTicking = every(TICK_EVERY_S, () => {
    tellSleep();
    if (clock() - lastInputAt_s < TICK_EVERY_S) return;
    const before = recorder.state().health;
    recorder.take({ kind: 'tick', at_s: clock() });
    if (before !== 'silent' && recorder.state().health === 'silent') source?.presumeLost();
  });
  return {
    recorder,
    instruction: () => {
      const { conductor, book } = recorder.state();
      return instructionOf(conductor, book.trials);
    },
    open: (openSource) => {
      source = openSource(clock, {
        input: (input) => {
          tellSleep();
          lastInputAt_s = input.at_s;
          recorder.take(input);
          if (input.kind === 'opened') restoreSettings(recorder, input, settingsOf);
        },
        port: listener.port,
        offers: listener.offers,
      });
    },
    close: async (reason) => {
      stopTicking();
      await source?.close(reason);
      await recorder.close();
    },
  };
}

/** Goes on with what was set for this board, as an input like any other: a replay does so too. */
function restoreSettings(
  recorder: Recorder,
  { link, at_s }: Extract<Input, { kind: 'opened' }>,
  settingsOf: Beginning['settingsOf'],
): void {
  const configuration = settingsOf(link.id);
  const current = recorder.state().reader.configuration;
  if (isDeepStrictEqual(configuration, current)) return;
  recorder.take({ kind: 'configured', at_s, configuration });
}
