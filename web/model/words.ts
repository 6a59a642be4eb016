/** What pages say at each stage: short commands, the cause, then what to do. */
import {
  decimalAt,
  firstPlace,
  scaled,
  UNIT_SPACE,
  writeMeasured,
} from '#core/metrology/format.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import type { Status, TrialView } from '#core/live-messages.ts';
import type { Below, Catalogue, Lines } from '../words/catalogue.ts';
import { seconds } from '../words/numbers.ts';
import { broughtToLight, doubtKeyedIn } from './doubt-words.ts';
import { loggedByHand } from './experiment.ts';
import { unitOf, type Prefixes, type Shown } from './quantities.ts';
import { airHeard, hasWind, shownThreads, type Judgement, type Stage } from './stage.ts';
import { dyingWords, stepWords } from './step-words.ts';
import { portSentence, sentenceOf } from './told.ts';

export interface Words extends Below {
  /** In large type, as the room reads it. */
  readonly lines: Lines;
}

export interface Spoken {
  readonly words: Catalogue;
  readonly stage: Stage;
  readonly status: Status | null;
  readonly judgement: Judgement | null;
  readonly experiment: ExperimentView;
  /** The newest trial that is not struck. */
  readonly newest: TrialView | null;
  /** All, by number. */
  readonly trials: readonly TrialView[];
  /** How long the open stretch has lasted, s. */
  readonly stretch_s: number;
  /** What it usually took from the start of the fan to logged, s; null until seen often enough. */
  readonly usual_s: number | null;
  readonly prefixes: Prefixes;
  /** Seconds since the last message. */
  readonly quiet_s: number;
}

export function wordsOf(spoken: Spoken): Words {
  const air = airHeard(spoken.judgement, spoken.newest);
  const step = stepWords(spoken.experiment, spoken.stage, spoken.words, air);
  if (step !== null) {
    const logged = loggedByHand(spoken.experiment, spoken.trials);
    const detail = (logged === null ? keyedDoubt(spoken) : newsOf(spoken)) || step.below.detail;
    return { lines: step.lines, ...step.below, detail };
  }
  const [lines, below] = SAID[spoken.stage](spoken);
  return { lines, ...below };
}

/** An instruction on one line. */
export function inOneLine(lines: Lines): string {
  return lines.join(' ');
}

type Said = readonly [lines: Lines, below: Below];

const FIRST_LINE = 'time_ms,voltage_V,current_mA,wind_mps';

const SAID: Readonly<Record<Stage, (spoken: Spoken) => Said>> = {
  connecting: ({ words: { instruction, below } }) => [instruction.connecting, below.connecting],
  'no-news': ({ words: { instruction, below }, quiet_s }) => [
    instruction.noNews,
    below.noNews(seconds(quiet_s)),
  ],
  'no-board': ({ words: { instruction, below } }) => [instruction.noBoard, below.noBoard],
  meters: (spoken) => metersSaid(spoken),
  starting: ({ words: { instruction, below } }) => [instruction.starting, below.starting],
  unplugged: (spoken) => {
    const { words, status, newest } = spoken;
    const below = withAdvice(words.below.unplugged, status, words);
    // Meanwhile readings may be keyed in: whether one is saved is seen at once.
    const isKeyed = newest?.origin === 'keyed';
    return [words.instruction.unplugged, isKeyed ? { ...below, detail: newsOf(spoken) } : below];
  },
  silent: ({ words: { instruction, below } }) => [instruction.silent, below.silent],
  refused: ({ words, status }) => [
    words.instruction.refused[status?.port.phase === 'refused' ? status.port.code : 'failed'],
    withAdvice(words.below.refused, status, words),
  ],
  unreadable: ({ words, status }) => [
    words.instruction.unreadable,
    explained(words.below.unreadable(FIRST_LINE), status, words),
  ],
  unmapped: ({ words, status }) => {
    const { unmappedYet, unmapped } = words.below;
    const below = status?.board ? unmappedYet : unmapped(FIRST_LINE);
    return [words.instruction.unmapped, explained(below, status, words)];
  },
  ended: ({ words, status }) => [
    words.instruction.ended,
    withAdvice(words.below.ended, status, words),
  ],
  waiting: (spoken) => {
    if (hasWind(spoken.judgement)) return windOnly(spoken.words);
    const moving = calmLine(spoken);
    const detail = keyedDoubt(spoken) || savedLine(spoken) || spoken.words.below.eachIsLogged;
    return [spoken.words.instruction.waiting, { moving, detail, state: withoutStop(moving) }];
  },
  'spinning-up': (spoken) => {
    const { instruction, below } = spoken.words;
    return [instruction.spinningUp, inMotion(spoken, `${below.spinningUp} ${byItself(spoken)}`)];
  },
  'running-down': (spoken) => {
    const dying = dyingWords(spoken.words, airHeard(spoken.judgement, spoken.newest));
    return [dying.lines, { ...inMotion(spoken, newsOf(spoken)), state: dying.below.state }];
  },
  moving: (spoken) => [spoken.words.instruction.moving, inMotion(spoken, byItself(spoken))],
  settling: (spoken) => [spoken.words.instruction.settling, inMotion(spoken, byItself(spoken))],
  hold: (spoken) => [spoken.words.instruction.hold, holding(spoken)],
  still: (spoken) => {
    const { instruction, below } = spoken.words;
    if (spoken.status?.store.ok === false) return [instruction.still, below.notSaved];
    const recording = below.still(seconds(spoken.stretch_s));
    return [instruction.still, { ...recording, detail: byItself(spoken) }];
  },
  logged: (spoken) => {
    const { instruction, below } = spoken.words;
    const detail = newsOf(spoken);
    if (spoken.newest?.rotorStill !== true) {
      return [instruction.logged, { ...below.logged, detail }];
    }
    // No blades to wait for.
    const { state } = below.logged;
    return [instruction.didNotTurn, { moving: `${state}.`, detail, state }];
  },
  disturbed: (spoken) => [
    spoken.words.instruction.disturbed,
    inMotion(spoken, spoken.words.below.disturbed),
  ],
  unsettled: ({ words: { instruction, below, question }, judgement, experiment }) => {
    const cause = judgement?.cause ?? 'drift';
    const isAsked = experiment.question?.kind === 'unsettled';
    const { state } = below.unsettled[cause];
    return [
      instruction.unsettled[cause],
      { ...below.unsettled[cause], state: isAsked ? question.onLaptop : state },
    ];
  },
};

/** No board: what is logged was keyed in, and the people at the rig look for themselves. */
function metersSaid(spoken: Spoken): Said {
  const { instruction, below } = spoken.words;
  const { step } = spoken.experiment;
  if (step === 'finished') {
    const detail = keyedDoubt(spoken) || below.finished.detail;
    return [instruction.finished, { ...below.finished, detail }];
  }
  const said = step === 'read-meters' ? below.readMeters : below.meters;
  return [
    instruction.meters,
    { ...said, detail: newsOf(spoken) || said.detail },
  ];
}

/** What the program has to say of the port, instead of what is said of any. */
function withAdvice(below: Below, status: Status | null, words: Catalogue): Below {
  const advice = status === null ? null : portSentence(status.port, words);
  return advice === null ? below : { ...below, moving: advice };
}

function inMotion(spoken: Spoken, detail: string): Below {
  return { moving: motionLine(spoken), detail, state: looseState(spoken) };
}

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
export function explanationOf(status: Status | null): Status['notices'][number] | null {
  const isUnread = status?.health === 'unreadable' || status?.health === 'unmapped';
  if (!isUnread) return null;
  return status.notices.findLast(({ code }) => WHY_UNREADABLE.includes(code)) ?? null;
}

function explained(below: Below, status: Status | null, words: Catalogue): Below {
  const notice = explanationOf(status);
  if (notice === null) return below;
  return { ...below, moving: sentenceOf(notice, 'notice', words).text, detail: '' };
}

function windOnly({ instruction, below }: Catalogue): Said {
  return [instruction.windOnly, below.windWithoutTurn];
}

function calmLine({ words: { below }, judgement }: Spoken): string {
  const isRead = judgement?.channels.some(({ channel }) => channel === 'windSpeed_mps') === true;
  return isRead ? below.noWind : below.nothingTurns;
}

function byItself({ words: { below }, usual_s }: Spoken): string {
  return usual_s === null ? below.logsItself : below.logsUsually(seconds(usual_s));
}

function holding(spoken: Spoken): Below {
  const { allJoined, left } = spoken.words.below;
  const detail = byItself(spoken);
  const left_s = spoken.judgement?.remaining_s ?? null;
  if (left_s === null) return { moving: allJoined, detail, state: withoutStop(allJoined) };
  const said = left(seconds(Math.max(Math.ceil(left_s), 1)));
  return { moving: `${allJoined} ${said}`, detail, state: withoutStop(said) };
}

/** A short line of the room ends without a full stop. */
function withoutStop(sentence: string): string {
  return sentence.replace(/\.$/, '');
}

/** Of the trial that was logged last. */
function newsOf(spoken: Spoken): string {
  return doubtLine(spoken) || savedLine(spoken);
}

/** What is to be looked at, at the run that it happened in. */
function doubtLine({ words, newest, trials, experiment }: Spoken): string {
  return newest === null ? '' : broughtToLight(experiment, newest, trials, words);
}

function keyedDoubt({ words, trials, experiment }: Spoken): string {
  return doubtKeyedIn(experiment, trials, words);
}

function savedLine({ words, newest, prefixes }: Spoken): string {
  if (newest === null) return '';
  const at = timeOfDay(newest.recordedAt);
  const power = newest.power_W;
  if (newest.rotorStill) return words.below.savedStill(newest.id, at);
  if (power === null) return words.below.saved(newest.id, at);
  return words.below.savedAs(newest.id, resultText(power, prefixes, words), at);
}

/** "243 ± 3 mW" */
export function resultText(
  power_W: NonNullable<TrialView['power_W']>,
  prefixes: Pick<Prefixes, 'power_W'>,
  words: Catalogue,
): string {
  const written = writeMeasured(power_W, { unit: 'W', prefix: prefixes.power_W });
  const { value, uncertainty, unit } = written;
  return `${words.number(value)} ± ${words.number(uncertainty)}${UNIT_SPACE}${unit}`;
}

/** Local time of day of an RFC 3339 time. */
export function timeOfDay(recordedAt: string): string {
  const time = new Date(recordedAt);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(time.getHours())}:${two(time.getMinutes())}:${two(time.getSeconds())}`;
}

/** "7 of 24 threads loose. Current still rises: 1 mA in 10 s." */
function motionLine(spoken: Spoken): string {
  const { stage, judgement, prefixes, words } = spoken;
  if (judgement === null) return '';
  const { loose, all } = threadCount(stage, judgement);
  const { below } = words;
  const joined = loose === 0 ? below.allJoined : below.loose(loose, all);
  const count = all === 0 ? '' : joined;
  return [count, worstMotion(judgement, prefixes, words)].filter((part) => part !== '').join(' ');
}

/** For the room: how many threads are loose. */
function looseState({ stage, judgement, words: { below } }: Spoken): string {
  if (judgement === null) return '';
  const { loose, all } = threadCount(stage, judgement);
  if (all === 0) return '';
  return loose === 0 ? withoutStop(below.allJoined) : below.looseShort(loose);
}

function threadCount(stage: Stage, judgement: Judgement): { loose: number; all: number } {
  const threads = shownThreads(stage, judgement);
  return { loose: threads.filter(({ joined }) => !joined).length, all: threads.length };
}

function worstMotion({ channels }: Judgement, prefixes: Prefixes, words: Catalogue): string {
  const pace = ({ level, slope_per_s }: Judgement['channels'][number]): number =>
    Math.abs(slope_per_s) / Math.max(Math.abs(level), 1e-12);
  const moving = channels
    .filter(({ motion, channel }) => motion !== 'still' && channel !== 'rotorSpeed_radps')
    .sort((a, b) => pace(b) - pace(a))[0];
  if (moving === undefined) return '';
  const quantity = moving.channel as Shown;
  if (moving.motion === 'unsteady') return words.motion.goesUpAndDown(quantity);
  const change = changeWords(quantity, moving, prefixes, words);
  return moving.motion === 'rising'
    ? words.motion.stillRises(quantity, change)
    : words.motion.stillFalls(quantity, change);
}

/** A change to one digit: "1 mA in 10 s", or in 1 s when it is so fast that 10 s say nothing. */
export function changeWords(
  quantity: Shown,
  { level, slope_per_s }: Pick<Judgement['channels'][number], 'level' | 'slope_per_s'>,
  prefixes: Prefixes,
  words: Catalogue,
): string {
  const prefix = prefixes[quantity];
  const time_s = Math.abs(slope_per_s) * 10 > Math.abs(level) / 2 ? 1 : 10;
  const change = Math.abs(scaled(slope_per_s * time_s, prefix.exponent));
  const amount = change > 0 ? words.number(decimalAt(change, firstPlace(change))) : '0';
  return words.motion.change(
    `${amount}${UNIT_SPACE}${unitOf(quantity, prefix)}`,
    seconds(time_s),
  );
}

/** What one strip says of its channel. */
export function stripWords(
  quantity: Shown,
  motion: Judgement['channels'][number] | undefined,
  prefixes: Prefixes,
  words: Catalogue,
): string {
  if (motion === undefined) return '';
  const { still, upAndDown, rising, falling } = words.motion;
  switch (motion.motion) {
    case 'still':
      return still;
    case 'unsteady':
      return upAndDown;
    case 'rising':
      return `${rising} ${changeWords(quantity, motion, prefixes, words)}`;
    case 'falling':
      return `${falling} ${changeWords(quantity, motion, prefixes, words)}`;
  }
}
