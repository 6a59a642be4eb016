/**
 * Which trials of a session were measured with what. A recording has one board; what the operator
 * says of its instruments holds for all recordings of the session with that board, also when it is
 * said afterwards. What a board says of itself holds for the recording in which it said it.
 */
import { z } from 'zod';
import { instrumentInUse } from '../../instrument/in-use.ts';
import { InstrumentSchema, StatedSchema, UNKNOWN_INSTRUMENT } from '../../instrument/instrument.ts';
import type { Trial } from '../trial.ts';
import type { Rig } from './budget.ts';

export const KnownInstrumentSchema = z
  .object({
    recordingId: z.number().int().positive(),
    /** As the link names it. */
    boardId: z.string(),
    said: InstrumentSchema,
    announced: z.object({ voltage: StatedSchema.nullable(), current: StatedSchema.nullable() }),
  })
  .readonly();
export type KnownInstrument = z.infer<typeof KnownInstrumentSchema>;

/** With what is known now; the same list when that is nothing new. */
export function withInstrument(
  known: readonly KnownInstrument[],
  now: KnownInstrument,
): readonly KnownInstrument[] {
  const before = known.find(({ recordingId }) => recordingId === now.recordingId);
  if (before !== undefined && JSON.stringify(before) === JSON.stringify(now)) return known;
  const { said, boardId } = now;
  const others = known.filter(({ recordingId }) => recordingId !== now.recordingId);
  // A recording that begins with nothing said takes nothing back of what was said before.
  const isTold = before !== undefined || said.voltage !== null || said.current !== null;
  const told = others.map((one) => (isTold && one.boardId === boardId ? { ...one, said } : one));
  return [...told, now];
}

/** Keyed and imported readings come from instruments that are not the board's. */
export function rigOf(
  { recordingId, basis }: Pick<Trial, 'recordingId' | 'basis'>,
  known: readonly KnownInstrument[],
): Rig {
  const found = known.find((one) => one.recordingId === recordingId);
  if (found === undefined || basis === 'keyed' || basis === 'imported') {
    return { id: `${basis} ${recordingId}`, instrument: UNKNOWN_INSTRUMENT };
  }
  // A board that was calibrated anew in between is another one: its gains changed.
  const isSame = (one: KnownInstrument): boolean =>
    one.boardId === found.boardId &&
    JSON.stringify(one.announced) === JSON.stringify(found.announced);
  const first = Math.min(...known.filter(isSame).map((one) => one.recordingId));
  return { id: `rig ${first}`, instrument: instrumentInUse(found.said, found.announced) };
}
