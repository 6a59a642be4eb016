/** What the page says at each stage: short commands, the cause, then what to do. */
import {
  decimalAt,
  firstPlace,
  scaled,
  UNIT_SPACE,
  writeMeasured,
} from '#core/metrology/format.ts';
import type { Status, TrialView } from '#core/live-messages.ts';
import { KINDS, unitOf, type Prefixes, type Shown } from './quantities.ts';
import { shownThreads, type Judgement, type Stage } from './stage.ts';

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
  /** What it usually took from the start of the fan to logged, s; null until seen often enough. */
  readonly usual_s: number | null;
  readonly prefixes: Prefixes;
  /** Seconds since the last message. */
  readonly quiet_s: number;
}

export function wordsOf(spoken: Spoken): Words {
  const [instruction, moving, detail = ''] = WORDS[spoken.stage](spoken);
  return { instruction, moving, detail };
}

type Said = readonly [instruction: string, moving: string, detail?: string];

const FIRST_LINE = 'time_ms,voltage_V,current_mA,wind_mps';

const WORDS: Readonly<Record<Stage, (spoken: Spoken) => Said>> = {
  connecting: () => ['Connecting.', 'Asking the program on the laptop for readings.'],
  'no-news': ({ quiet_s }) => [
    'No news.',
    `Nothing from the laptop for ${seconds(quiet_s)}. Trying again.`,
    'The laptop may still be logging. This page takes up again by itself.',
  ],
  'no-board': () => ['Plug the board in.', 'No board found yet.', 'It is taken up by itself.'],
  starting: () => ['Board is starting.', 'Waiting for its first reading.'],
  unplugged: ({ status }) => [
    'Board unplugged.',
    messageOf(status) ?? 'Push the cable in.',
    'What was logged is safe. The board is taken up again by itself.',
  ],
  silent: () => [
    'Board is silent.',
    'No reading comes. Push the cable in, or press the board’s reset.',
    'What was logged is safe.',
  ],
  refused: ({ status }) => [
    refusal(status),
    messageOf(status) ?? '',
    'It is tried again by itself.',
  ],
  unreadable: ({ status }) =>
    explained('Can’t read the board.', status) ?? [
      'Can’t read the board.',
      'Text arrives, but no readings. Is the board’s serial speed right?',
      `Its first line should name the columns, like: ${FIRST_LINE}`,
    ],
  unmapped: ({ status }) =>
    explained('Which number is what?', status) ??
    (status?.board
      ? ['Which number is what?', 'The board has not said yet. It does so every 10 s.']
      : [
          'Which number is what?',
          'Numbers arrive, but nothing names them. Name them below.',
          `Or let the board send a first line like: ${FIRST_LINE}`,
        ]),
  ended: ({ status }) => [
    'The end.',
    messageOf(status) ?? 'The recording has been played to its end.',
  ],
  waiting: (spoken) => [
    'Start the fan.',
    calmLine(spoken.judgement),
    savedLine(spoken) || 'Each steady stretch is logged by itself.',
  ],
  'spinning-up': (spoken) => [
    'Stand back. Spinning up.',
    motionLine(spoken),
    `Keep hands, hair and sleeves away. ${byItself(spoken)}`,
  ],
  'running-down': (spoken) => [
    'Wait. Blades still turning.',
    motionLine(spoken),
    savedLine(spoken),
  ],
  moving: (spoken) => ['Hands off. Still moving.', motionLine(spoken), byItself(spoken)],
  settling: (spoken) => ['Hands off. Almost still.', motionLine(spoken), byItself(spoken)],
  hold: (spoken) => ['Hold still.', holdLine(spoken.judgement), byItself(spoken)],
  still: (spoken) =>
    spoken.status?.store.ok === false
      ? ['Still.', 'Not logged: saving has stopped.', 'It is logged as soon as saving works again.']
      : ['Still.', `Recording: ${seconds(spoken.stretch_s)} so far.`, byItself(spoken)],
  logged: (spoken) => [
    spoken.newest?.rotorStill === true ? 'Logged. It did not turn.' : 'Still. Logged.',
    'Now stop the fan. Wait for the blades to stop.',
    savedLine(spoken),
  ],
  disturbed: (spoken) => [
    'Bumped! Wait again.',
    motionLine(spoken),
    'Nothing is lost. It logs when it is still.',
  ],
  unsettled: ({ judgement }) => UNSETTLED[judgement?.cause ?? 'drift'],
};

/** Notices that tell why no line can be read, and what to change in the sketch. */
const WHY_UNREADABLE: readonly string[] = [
  'board-version',
  'no-announcement',
  'samples-misfit',
  'channel-unknown',
  'channel-unit',
  'channel-scale',
  'columns-misfit',
  'decimal-comma',
];

/** The notice that explains why nothing can be read; null when none does. */
export function explanationOf(status: Status | null): string | null {
  const isUnread = status?.health === 'unreadable' || status?.health === 'unmapped';
  if (!isUnread) return null;
  return status.notices.findLast(({ code }) => WHY_UNREADABLE.includes(code))?.message ?? null;
}

function explained(instruction: string, status: Status | null): Said | null {
  const message = explanationOf(status);
  return message === null ? null : [instruction, message];
}

function seconds(time_s: number): string {
  return `${time_s.toFixed(0)}${UNIT_SPACE}s`;
}

function messageOf(status: Status | null): string | null {
  const port = status?.port;
  return port !== undefined && 'message' in port ? (port.message ?? null) : null;
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

const UNSETTLED: Readonly<Record<NonNullable<Judgement['cause']>, Said>> = {
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

/** Below this there is no wind to speak of, m/s. */
const CALM_MPS = 0.3;

function calmLine(judgement: Judgement | null): string {
  const wind = judgement?.channels.find(({ channel }) => channel === 'windSpeed_mps');
  if (wind === undefined) return 'Nothing turns yet.';
  return wind.level > CALM_MPS ? 'There is wind, but nothing turns yet.' : 'No wind yet.';
}

function byItself({ usual_s }: Spoken): string {
  if (usual_s === null) return 'It logs by itself.';
  return `It logs by itself, usually ${seconds(usual_s)} after the start.`;
}

function holdLine(judgement: Judgement | null): string {
  const left_s = judgement?.remaining_s ?? null;
  if (left_s === null) return 'All threads joined.';
  return `All threads joined. ${seconds(Math.max(Math.ceil(left_s), 1))} left.`;
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
function motionLine({ stage, judgement, prefixes }: Spoken): string {
  if (judgement === null) return '';
  const threads = shownThreads(stage, judgement);
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
  motion: Judgement['channels'][number],
  prefixes: Prefixes,
): string {
  if (motion.motion === 'unsteady') return 'goes up and down';
  const verb = motion.motion === 'rising' ? 'rises' : 'falls';
  return `still ${verb}: ${changeWords(quantity, motion, prefixes)}`;
}

/** A change to one digit: "1 mA in 10 s", or in 1 s when it is so fast that 10 s say nothing. */
export function changeWords(
  quantity: Shown,
  { level, slope_per_s }: Pick<Judgement['channels'][number], 'level' | 'slope_per_s'>,
  prefixes: Prefixes,
): string {
  const prefix = prefixes[quantity];
  const time_s = Math.abs(slope_per_s) * 10 > Math.abs(level) / 2 ? 1 : 10;
  const change = Math.abs(scaled(slope_per_s * time_s, prefix.exponent));
  const amount = change > 0 ? decimalAt(change, firstPlace(change)) : '0';
  return `${amount}${UNIT_SPACE}${unitOf(quantity, prefix)} in ${time_s}${UNIT_SPACE}s`;
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
      return `${motion.motion} ${changeWords(quantity, motion, prefixes)}`;
  }
}
