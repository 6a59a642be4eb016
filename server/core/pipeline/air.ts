/** The air that the board tells of when a trial is logged, kept for the trials of this recording. */
import { withHeardAir } from '../experiment/budget/known-air.ts';
import { airHeard } from '../reading/air-heard.ts';
import type { PipelineState } from './state.ts';

export function noteAir({ reader, lastLine, recordingId, conductor }: PipelineState): void {
  const { ledger } = conductor;
  const airs = withHeardAir(ledger.airs, { recordingId, ...airHeard(reader, lastLine) });
  if (airs !== ledger.airs) conductor.ledger = { ...ledger, airs };
}
