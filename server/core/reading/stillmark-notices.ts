/** What a person is told of a board's own messages. */
import type { Frame } from '#protocol/frame.ts';
import type { Notice } from '../events.ts';
import type { Announcement } from './announcement.ts';

type Trouble = Extract<Frame, { kind: 'trouble' }>;

const TROUBLE_WORDS: Readonly<Record<Trouble['trouble'], string>> = {
  missing: 'the sensor does not answer. Check its wires.',
  over: 'the reading is above what it can measure. Use a larger range or a smaller load.',
  under: 'the reading is below what it can measure. Check polarity and zero.',
  supply: 'the supply voltage is too low. Check the USB cable and what else the board feeds.',
};

export function troubleNotice(
  { channel, trouble }: Trouble,
  announcement: Announcement | null,
): Notice {
  const quantity = announcement?.channels[channel - 1]?.quantity;
  const who =
    channel === 0
      ? 'the board'
      : `channel ${channel}${quantity === undefined ? '' : ` (${quantity})`}`;
  return {
    code: `board-${trouble}`,
    message: `The board reports for ${who}: ${TROUBLE_WORDS[trouble]}`,
    about: [channel === 0 ? '' : String(channel), quantity ?? ''],
  };
}

/** A board announces itself at least every 10 s; a line of it may be lost. */
export const UNANNOUNCED_FOR_S = 12;

export const UNANNOUNCED: Notice = {
  code: 'no-announcement',
  message: `Samples arrive, but for ${UNANNOUNCED_FOR_S} s the board has not said what their numbers are. Its sketch must send $stillmark, $identity, a $channel line for each channel, and $pace: at its start, and again every 10 s.`,
  about: [String(UNANNOUNCED_FOR_S)],
};

export function misfitNotice(fields: number, channels: number): Notice {
  return {
    code: 'samples-misfit',
    message: `The board's samples have ${fields} readings, but it has announced ${channels} channels, so they are not read. Correct one of the two in the sketch.`,
    about: [String(fields), String(channels)],
  };
}

export function foreignNotice(theirs: number, ours: number): Notice {
  return {
    code: 'board-version',
    message: `The board speaks version ${theirs} of the Stillmark lines, this program version ${ours}. Load the sketch that came with this program.`,
    about: [String(theirs), String(ours)],
  };
}
