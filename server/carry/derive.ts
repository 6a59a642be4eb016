import type { Event } from '#core/events.ts';
import type { TrialBook } from '#core/experiment/trial-book.ts';
import type { Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { numberOf } from '#core/recording.ts';
import type { StoreReader } from '../store/reader.ts';
import type { RecordingInfo } from '../store/store.ts';

/** What one input of a recording gave. */
export interface Derived {
  readonly input: Input;
  readonly events: readonly Event[];
}

/**
 * Derives a stored recording again, input by input.
 * @param book the session's trials of the recordings before; those of this one are entered
 * @throws StoreError `data-damaged` where input is damaged or missing
 */
export function* deriveAgain(
  reader: StoreReader,
  recording: RecordingInfo,
  book: TrialBook,
): Generator<Derived> {
  let state = begin(recording.head, numberOf(recording), book);
  for (const input of reader.inputs(recording.id)) {
    const result = step(state, input);
    state = result.state;
    yield { input, events: result.events };
  }
}
