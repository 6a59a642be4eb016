/** What is known of the instruments, kept for the trials of this recording and those before it. */
import type { Configuration } from '../configuration.ts';
import type { Event } from '../events.ts';
import { withInstrument } from '../experiment/budget/known-instruments.ts';
import { announcedUncertainties } from '../reading/announced-uncertainties.ts';
import type { PipelineState } from './state.ts';

/** Whether nothing is read differently from here on, so that what goes on may go on. */
export function tellsInstrumentOnly(before: Configuration, now: Configuration): boolean {
  const { instrument: told, ...rest } = now;
  const { instrument: known, ...others } = before;
  return !isSame(told, known) && isSame(rest, others);
}

function isSame(a: object, b: object): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

export function noteInstrument(state: PipelineState): readonly Event[] {
  const { reader, recordingId, conductor } = state;
  if (reader.linkId === null) return [];
  const { ledger } = conductor;
  const instruments = withInstrument(ledger.instruments, {
    recordingId,
    boardId: reader.linkId,
    said: reader.configuration.instrument,
    announced: announcedUncertainties(reader),
  });
  if (instruments === ledger.instruments) return [];
  conductor.ledger = { ...ledger, instruments };
  return [{ kind: 'experiment' }];
}
