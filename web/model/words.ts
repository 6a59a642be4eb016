/** What the page says at each stage: short commands, the cause, then what to do. */
import { decimalAt, firstPlace, scaled, UNIT_SPACE, writeMeasured } from '#core/metrology/format.ts';
import type { Status, TrialView } from '#core/live-messages.ts';
import { KINDS, unitOf, type Prefixes, type Shown } from './quantities.ts';
import type { Judgement, Stage } from './stage.ts';

export interface Words {
  /** In large type. */
  readonly instruction: string;
  /** What still moves, or what to do next, with numbers. */
  readonly moving: string;
  /** In small type: what the tool does by itself. */
  readonly detail: string;
}

export interface Spoken {
  readonly stage: Stage;
  readonly status: Status | null;
  readonly judgement: Judgement | null;
  /** The newest trial that is not struck. */
  readonly newest: TrialView | null;
  /** How long the open stretch has lasted, s. */
  readonly stretch_s: number;
  /** What the detector needed, from truly still to settled, over the session's trials; null early. */
  readonly usual_s: number | null;
  readonly prefixes: Prefixes;
  /** Seconds since the last message. */
  readonly quiet_s: number;
}

export function wordsOf(spoken: Spoken): Words {
  return wordsOfLink(spoken) ?? wordsOfReadings(spoken);
}

function say(instruction: string, moving: string, detail = ''): Words {
  return { instruction, moving, detail };
}

function wordsOfLink({ stage, status, quiet_s }: Spoken): Words | null {
  switch (stage) {
    case 'connecting':
      return say('Connecting.', 'Asking the program on the laptop for readings.');
    case 'no-news':
      return say(
        'No news.',
        `Nothing from the laptop for ${quiet_s.toFixed(0)}${UNIT_SPACE}s. Trying again.`,
        'The laptop may still be logging. This page takes up again by itself.',
      );
    case 'no-board':
      return say('Plug the board in.', 'No board found yet.', 'It is taken up by itself.');
    case 'starting':
      return say('Board is starting.', 'Waiting for its first reading.');
    case 'unplugged':
      return say(
        'Board unplugged.',
        messageOf(status) ?? 'Push the cable in.',
        'What was logged is safe. The board is taken up again by itself.',
      );
    case 'silent':
      return say(
        'Board is silent.',
        'No reading for 2 s. Push the cable in, or press the board’s reset.',
        'What was logged is safe.',
      );
    case 'refused':
      return say(refusal(status), messageOf(status) ?? '', 'It is tried again by itself.');
    case 'unreadable':
      return say(
        'Can’t read the board.',
        'Text arrives, but no readings. Is the board’s serial speed right?',
        'Its first line should name the columns, like: time_ms,voltage_V,current_mA,wind_mps',
      );
    case 'unmapped':
      return say(
        'Which number is what?',
        'Numbers arrive, but nothing names them.',
        'Let the board send a first line like: time_ms,voltage_V,current_mA,wind_mps',
      );
    case 'ended':
      return say('The end.', 'The recording has been played to its end.');
    default:
      return null;
  }
}

function messageOf(status: Status | null): string | null {
  const port = status?.port;
  return port?.phase === 'refused' || port?.phase === 'unplugged' ? (port.message ?? null) : null;
}

function refusal(status: Status | null): string {
  if (status?.port.phase !== 'refused') return 'Board won’t open.';
  switch (status.port.code) {
    case 'busy':
      return 'Board is in use.';
    case 'denied':
      return 'Not allowed yet.';
    case 'missing':
      return 'Board has gone.';
    case 'failed':
      return 'Board won’t open.';
  }
}

function wordsOfReadings(spoken: Spoken): Words {
  const { stage, judgement, newest, stretch_s } = spoken;
  const still = newest?.rotorStill === true;
  switch (stage) {
    case 'spinning-up':
      return say('Stand back. Spinning up.', motionLine(spoken), 'Keep hands, hair and sleeves away.');
    case 'running-down':
      return say('Wait. Blades still turning.', motionLine(spoken), savedLine(spoken));
    case 'moving':
      return say('Hands off. Still moving.', motionLine(spoken), 'It logs by itself.');
    case 'settling':
      return say('Hands off. Almost still.', motionLine(spoken), byItself(spoken));
    case 'hold':
      return say('Hold still.', holdLine(judgement), byItself(spoken));
    case 'still':
      return say('Still.', `Recording: ${stretch_s.toFixed(0)}${UNIT_SPACE}s so far.`, byItself(spoken));
    case 'logged':
      return say(
        still ? 'Logged. It did not turn.' : 'Still. Logged.',
        'Now stop the fan. Wait for the blades to stop.',
        savedLine(spoken),
      );
    case 'disturbed':
      return say('Bumped! Wait again.', motionLine(spoken), 'Nothing is lost. It logs when it is still.');
    case 'unsettled':
      return say(...UNSETTLED[judgement?.cause ?? 'drift']);
    default:
      return say('Start the fan.', 'No wind yet.', savedLine(spoken) || 'It logs by itself.');
  }
}

const UNSETTLED: Readonly<
  Record<NonNullable<Judgement['cause']>, readonly [string, string, string]>
> = {
  cycle: [
    'It keeps hunting.',
    'Power swings up and down; waiting won’t stop it.',
    'Look for a slipping blade or a rubbing shaft. Or turn the blades a little, or move the fan.',
  ],
  gusts: [
    'The wind keeps gusting.',
    'Waiting won’t calm it.',
    'Close doors and windows, keep people out of the stream, or move the fan.',
  ],
  drift: [
    'It keeps creeping.',
    'Power still goes one way after half a minute.',
    'Let fan and lamp warm up, and check that no blade is slipping.',
  ],
};

function byItself({ usual_s }: Spoken): string {
  if (usual_s === null) return 'It logs by itself.';
  return `It logs by itself. It usually takes ${usual_s.toFixed(0)}${UNIT_SPACE}s of stillness.`;
}

function holdLine(judgement: Judgement | null): string {
  const left_s = judgement?.remaining_s ?? null;
  if (left_s === null) return 'All threads joined.';
  const seconds = Math.max(Math.ceil(left_s), 1);
  return `All threads joined. ${seconds}${UNIT_SPACE}s left.`;
}

function savedLine({ newest, prefixes }: Spoken): string {
  if (newest === null) return '';
  const at = timeOfDay(newest.recordedAt);
  const power = newest.power_W;
  if (power === null) return `Trial ${newest.id} was saved at ${at}.`;
  const written = writeMeasured(power, { unit: 'W', prefix: prefixes.power_W });
  const { value, uncertainty, unit } = written;
  const result = `${value} ± ${uncertainty}${UNIT_SPACE}${unit}`;
  return `Trial ${newest.id}, ${result}, was saved at ${at}.`;
}

/** Local time of day of an RFC 3339 time. */
export function timeOfDay(recordedAt: string): string {
  const time = new Date(recordedAt);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(time.getHours())}:${two(time.getMinutes())}:${two(time.getSeconds())}`;
}

/** "7 of 24 threads loose. Current still rises: 1 mA in 10 s." */
function motionLine({ judgement, prefixes }: Spoken): string {
  if (judgement === null) return '';
  const { threads } = judgement;
  const loose = threads.filter(({ joined }) => !joined).length;
  const count = threads.length === 0 ? '' : looseWords(loose, threads.length);
  return [count, worstMotion(judgement, prefixes)].filter((part) => part !== '').join(' ');
}

function looseWords(loose: number, all: number): string {
  if (loose === 0) return 'All threads joined.';
  return loose === all ? `All ${all} threads loose.` : `${loose} of ${all} threads loose.`;
}

function worstMotion({ channels }: Judgement, prefixes: Prefixes): string {
  const pace = ({ level, slope_per_s }: Judgement['channels'][number]): number =>
    Math.abs(slope_per_s) / Math.max(Math.abs(level), 1e-12);
  const moving = channels
    .filter(({ motion, channel }) => motion !== 'still' && channel !== 'rotorSpeed_radps')
    .sort((a, b) => pace(b) - pace(a))[0];
  if (moving === undefined) return '';
  const quantity = moving.channel as Shown;
  return `${KINDS[quantity].name} ${motionWords(quantity, moving, prefixes)}.`;
}

/** "still rises: 1 mA in 10 s" */
function motionWords(
  quantity: Shown,
  { motion, slope_per_s }: Judgement['channels'][number],
  prefixes: Prefixes,
): string {
  if (motion === 'unsteady') return 'goes up and down';
  const verb = motion === 'rising' ? 'rises' : 'falls';
  return `still ${verb}: ${changeIn10s(quantity, slope_per_s, prefixes)}`;
}

/** A change in 10 s to one digit, for instance "1 mA in 10 s". */
export function changeIn10s(quantity: Shown, slope_per_s: number, prefixes: Prefixes): string {
  const prefix = prefixes[quantity];
  const change = Math.abs(scaled(slope_per_s * 10, prefix.exponent));
  const amount = change > 0 ? decimalAt(change, firstPlace(change)) : '0';
  return `${amount}${UNIT_SPACE}${unitOf(quantity, prefix)} in 10${UNIT_SPACE}s`;
}

/** What one strip says of its channel. */
export function stripWords(
  quantity: Shown,
  motion: Judgement['channels'][number] | undefined,
  prefixes: Prefixes,
): string {
  if (motion === undefined) return '';
  switch (motion.motion) {
    case 'still':
      return 'still';
    case 'unsteady':
      return 'up and down';
    case 'rising':
    case 'falling':
      return `${motion.motion} ${changeIn10s(quantity, motion.slope_per_s, prefixes)}`;
  }
}
