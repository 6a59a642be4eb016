/**
 * All that pages say, as one interface: a language is an object that has every entry. What follows
 * on a number or a name is a function, so that each language may put it where it belongs.
 */
import type { Level } from '#core/experiment/plan/plan.ts';
import type { Doubt, Question } from '#core/experiment/view.ts';
import type { AnswerWords, SentenceWords } from './answer-words.ts';
import type { BenchWords } from './bench-words.ts';
import type { BoardWords } from './board-words.ts';
import type { NetworkWords } from './network-words.ts';
import type { BudgetWords } from './budget-words.ts';
import type { FitWords } from './fit-words.ts';
import type { Shown } from '../model/quantities.ts';
import type { TopWords } from './top-words.ts';
import type { RigWords } from './rig-words.ts';
import type { WindWords } from './wind-words.ts';

export const LANGUAGES = ['en', 'de', 'es', 'fr'] as const;
export type Language = (typeof LANGUAGES)[number];

/** An instruction, at most 13 letters a line, so that it can be read from 10 m. */
export type Lines = readonly [string] | readonly [string, string];

/** What stands below an instruction. */
export interface Below {
  /** What still moves, or what to do next. */
  readonly moving: string;
  /** In small type: what the tool does by itself. */
  readonly detail: string;
  /** The same for the room, in a few words; a full stop is not needed. */
  readonly state: string;
}

/** One level of one factor of a run. */
export interface Setting {
  readonly kind: 'angle' | 'length' | 'blades' | 'fan' | 'load' | 'own';
  /** The factor's name, as it was typed. */
  readonly name: string;
  readonly level: Level;
}

export interface Catalogue {
  readonly language: Language;
  /** The language's own name for itself. */
  readonly name: string;
  /** A number that was written with a point, as this language writes it. */
  readonly number: (decimal: string) => string;
  readonly quantity: Readonly<Record<Shown, string>>;
  /** Several things, one behind the other. */
  readonly list: (items: readonly string[]) => string;
  readonly top: TopWords;
  readonly instruction: InstructionWords;
  readonly below: BelowWords;
  readonly motion: MotionWords;
  readonly plan: PlanWords;
  readonly question: QuestionWords;
  /** `isLess`: below what was expected. */
  readonly doubt: Readonly<
    Record<Doubt['kind'], (trial: number, percent: string, isLess: boolean) => string>
  >;
  readonly answer: AnswerWords;
  readonly sentence: SentenceWords;
  readonly page: PageWords;
  readonly voice: VoiceWords;
  readonly bench: BenchWords;
  readonly network: NetworkWords;
  readonly board: BoardWords;
  readonly budget: BudgetWords;
  readonly wind: WindWords;
  readonly fit: FitWords;
  readonly rig: RigWords;
}

export interface InstructionWords {
  /** There is wind, and nothing turns. */
  readonly windOnly: Lines;
  readonly connecting: Lines;
  readonly noNews: Lines;
  readonly noBoard: Lines;
  /** No board is in use: people read their meters. */
  readonly meters: Lines;
  readonly starting: Lines;
  readonly unplugged: Lines;
  readonly silent: Lines;
  readonly refused: Readonly<Record<'busy' | 'denied' | 'missing' | 'failed', Lines>>;
  readonly unreadable: Lines;
  readonly unmapped: Lines;
  readonly ended: Lines;
  /** The rotor rests and there is no plan. */
  readonly waiting: Lines;
  readonly spinningUp: Lines;
  readonly runningDown: Lines;
  /** As the fan runs down, where the rotor has not turned at all. */
  readonly windDies: Lines;
  readonly moving: Lines;
  readonly settling: Lines;
  readonly hold: Lines;
  readonly still: Lines;
  readonly logged: Lines;
  readonly didNotTurn: Lines;
  readonly disturbed: Lines;
  /** It will not settle, by what keeps it from it. */
  readonly unsettled: Readonly<Record<'cycle' | 'gusts' | 'drift', Lines>>;
  readonly stopFan: Lines;
  /** The level is set: the fan may be started. */
  readonly startFan: Lines;
  readonly finished: Lines;
  /** The operator has said wait. */
  readonly paused: Lines;
  /** Set this level; only ever said while the blades stand. */
  readonly set: (setting: Setting) => Lines;
  /** Set several at once. */
  readonly setAll: (labels: readonly string[]) => Lines;
}

export interface BelowWords {
  readonly connecting: Below;
  readonly noNews: (time: string) => Below;
  readonly noBoard: Below;
  /** No board, no plan. */
  readonly meters: Below;
  /** No board hears whether anything turns: setting, wind and reading are with the people. */
  readonly readMeters: Below;
  readonly starting: Below;
  readonly unplugged: Below;
  readonly silent: Below;
  /** `moving` is the program's own advice where there is one. */
  readonly refused: Below;
  readonly unreadable: (firstLine: string) => Below;
  /** The board is one that will name its numbers by itself. */
  readonly unmappedYet: Below;
  readonly unmapped: (firstLine: string) => Below;
  readonly ended: Below;
  readonly spinningUp: string;
  readonly still: (time: string) => Below;
  readonly notSaved: Below;
  readonly logged: Below;
  readonly disturbed: string;
  readonly unsettled: Readonly<Record<'cycle' | 'gusts' | 'drift', Below>>;
  /** The next line of a run that stands before the wind. */
  readonly stopFan: Below;
  readonly bladesTurn: Below;
  readonly windDies: Below;
  readonly setBlades: Below;
  /** No anemometer hears whether the fan is off: a person has to look. */
  readonly setBladesUnheard: Below;
  readonly startFan: Below;
  readonly finished: Below;
  readonly paused: Below;
  /** Nothing turns, no anemometer. */
  readonly nothingTurns: string;
  /** There is wind, nothing turns, and what becomes of it. */
  readonly windWithoutTurn: Below;
  readonly noWind: string;
  readonly eachIsLogged: string;
  readonly logsItself: string;
  readonly logsUsually: (time: string) => string;
  readonly allJoined: string;
  readonly left: (time: string) => string;
  readonly loose: (loose: number, all: number) => string;
  /** The same for the room: how many are loose, without how many there are. */
  readonly looseShort: (loose: number) => string;
  readonly saved: (trial: number, time: string) => string;
  /** The rotor did not turn: an outcome, no small number. */
  readonly savedStill: (trial: number, time: string) => string;
  readonly savedAs: (trial: number, result: string, time: string) => string;
}

/** What a channel does. */
export interface MotionWords {
  readonly still: string;
  readonly upAndDown: string;
  readonly rising: string;
  readonly falling: string;
  /** "1 mA in 10 s" */
  readonly change: (amount: string, time: string) => string;
  /** Of a quantity by its name, a whole sentence. */
  readonly goesUpAndDown: (quantity: Shown) => string;
  readonly stillRises: (quantity: Shown, change: string) => string;
  readonly stillFalls: (quantity: Shown, change: string) => string;
  readonly noReading: string;
}

/** The plan and its runs. */
export interface PlanWords {
  /** "Blades at 40°" */
  readonly setting: (setting: Setting) => string;
  readonly trial: (id: number) => string;
  /** "2 of 3" */
  readonly countOf: (count: number, all: number) => string;
  readonly runOf: (run: number, all: number) => string;
  readonly round: (round: number) => string;
  readonly group: (group: string) => string;
  readonly now: string;
  readonly next: string;
  readonly nextIs: (label: string) => string;
  readonly done: string;
  readonly toCome: string;
  readonly skipped: string;
  readonly again: string;
  readonly reference: string;
  /** Over the answer plot. */
  readonly powerAt: (factor: string) => string;
  /** One trial only: its interval is the least that can be said. */
  readonly atLeast: string;
}

export interface QuestionWords {
  readonly asked: Readonly<Record<Question['kind'], Lines>>;
  /** In one sentence, for the laptop; `trial` for a trial that no run asked for. */
  readonly isFanOn: string;
  readonly unsettled: string;
  readonly unassigned: (trial: number) => string;
  /** For the room: who answers. */
  readonly onLaptop: string;
  /** On a phone that may answer: its buttons stand above. */
  readonly above: string;
  readonly yesItRuns: string;
  readonly noItIsOff: string;
  readonly average: string;
  readonly skip: string;
  readonly wait: string;
  readonly leaveIt: string;
  readonly giveTo: (label: string) => string;
}

/** What pages say of themselves. */
export interface PageWords {
  readonly simulated: string;
  readonly simulatedSpoken: string;
  /** Along the top while an earlier session is played. */
  readonly replay: string;
  readonly replaySimulated: string;
  readonly replaySpoken: string;
  readonly replaySimulatedSpoken: string;
  readonly watchingOnly: string;
  readonly lastLogged: string;
  readonly soFar: string;
  readonly power: (value: string) => string;
  readonly powerUnknown: string;
  readonly language: string;
  readonly sectionNow: string;
  readonly sectionPlot: string;
  readonly sectionSaid: string;
  /** Above the room's plot while it is hidden. */
  readonly coveredPlot: string;
  readonly storeStopped: string;
  readonly noFit: (problem: string) => string;
  readonly runsDone: (count: number, all: number) => string;
  /** A mark of the answer plot in words. */
  readonly markAt: (label: string, results: string) => string;
}

/** What is spoken: short, units written out. */
export interface VoiceWords {
  readonly unit: Readonly<Record<'°' | 'mm' | 'cm' | 'm' | 'Ω' | 'V', string>>;
  /** A power with its unit, written out: "243 milliwatts". */
  readonly power: (value: string, prefix: 'µ' | 'm' | '' | 'k') => string;
  /** "Settled. 243 milliwatts. Stop the fan." */
  readonly logged: (power: string) => string;
  /** The same where somebody wanted it logged though it had not settled. */
  readonly loggedByHand: (power: string) => string;
  readonly didNotTurn: string;
  readonly disturbed: string;
  readonly unplugged: string;
  readonly finished: string;
  readonly notSaved: string;
  /** Voice is wanted but the browser keeps it silent until the page is touched. */
  readonly touchToHear: string;
  readonly noVoice: string;
  /** No voice of this language: another one reads. */
  readonly otherVoice: (name: string) => string;
  readonly on: string;
  readonly off: string;
}
