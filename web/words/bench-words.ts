/** What only the bench page says: the plan in the making, putting right, keys. */
import type { PlanFileFault } from '#core/experiment/plan/plan-file.ts';
import type { Factor } from '#core/experiment/plan/plan.ts';
import type { Obstacle, Warning } from '#core/experiment/plan/remarks.ts';
import type { TemplateWords } from '#core/experiment/plan/templates.ts';
import type { Undoable } from '#core/experiment/view.ts';
import type { ProblemKind } from '../plan/read-form.ts';
import type { ByHandWords } from './by-hand-words.ts';

/** What an operator can teach a key. */
export type KeyAction = 'log' | 'next' | 'again' | 'strike';

export interface BenchWords {
  readonly plan: string;
  readonly keys: string;
  readonly close: string;
  readonly form: FormWords;
  readonly run: RunWords;
  readonly trial: TrialWords;
  readonly cover: CoverWords;
  readonly taught: TaughtWords;
  readonly sessions: SessionWords;
  readonly byHand: ByHandWords;
  /** Over the answer plot. */
  readonly plot: {
    readonly byNumber: string;
    readonly byWind: string;
    /** The share of the wind's power, against the wind. */
    readonly share: string;
    readonly noRun: string;
    /** Of trials at a level that was taken out of the plan. */
    readonly notInPlan: string;
    /** Short for either, where there is little room. */
    readonly others: string;
    /** Beside a mean: the line of what its trials scatter, and the dashed one of the instruments. */
    readonly scatter: string;
    readonly instruments: string;
    /** The most that any rotor can take: "59.3 %". */
    readonly betz: (percent: string) => string;
    /** It lies above the plot. */
    readonly betzAbove: (percent: string) => string;
    /** What is needed before shares can be told. */
    readonly sayRotor: string;
  };
}

export interface SessionWords {
  readonly sessions: string;
  readonly name: string;
  readonly begin: string;
  readonly now: string;
  readonly goOn: string;
  readonly origin: Readonly<Record<'board' | 'simulated' | 'imported', string>>;
  readonly find: string;
  /** No session in the list has what is looked for. */
  readonly noneFound: string;
  readonly save: string;
  readonly saving: string;
  /** Of a session that is kept: puts it into the plan's form. */
  readonly takePlan: string;
  readonly takeIn: string;
  /** What became of a file that was taken in. */
  readonly taken: Readonly<Record<'new' | 'grown' | 'known' | 'apart', (name: string) => string>>;
  readonly play: string;
  /** null: as fast as it will go. */
  readonly speed: (times: number | null) => string;
  readonly endReplay: string;
}

export interface FormWords {
  readonly heading: string;
  readonly startFrom: string;
  readonly ready: Readonly<Record<'angle' | 'length' | 'blades', string>>;
  /** Before the choice of a file: another group's session, or a plan alone. */
  readonly ofFile: string;
  readonly fileFault: Readonly<Record<PlanFileFault, string>>;
  readonly question: string;
  readonly factor: (place: number) => string;
  readonly kind: Readonly<Record<Factor['kind'], string>>;
  readonly name: string;
  readonly unit: string;
  readonly levels: string;
  readonly levelsHint: string;
  /** "5 levels: 10°, 25°, …" */
  readonly understood: (count: number, labels: string) => string;
  readonly addFactor: string;
  readonly takeOut: string;
  readonly together: string;
  readonly design: Readonly<Record<'factorial' | 'series', string>>;
  readonly heldAt: string;
  readonly rounds: string;
  readonly roundsHint: string;
  readonly repeats: string;
  readonly repeatsHint: string;
  readonly order: string;
  readonly orders: Readonly<Record<'random' | 'listed', string>>;
  readonly reference: string;
  readonly referenceHint: string;
  readonly at: string;
  readonly groups: string;
  readonly groupsHint: string;
  readonly finishBy: string;
  readonly bellIsPast: (time: string) => string;
  readonly constants: string;
  readonly constantName: string;
  readonly constantValue: string;
  readonly addConstant: string;
  readonly runs: (count: number) => string;
  readonly takes: (minutes: number) => string;
  readonly timed: Readonly<Record<'measured' | 'default', (seconds: string) => string>>;
  /** How many of all rounds will be whole by the bell. */
  readonly fits: (rounds: number, all: number, time: string) => string;
  readonly start: string;
  readonly change: string;
  readonly end: string;
  readonly stays: string;
  readonly toMend: (count: number) => string;
  readonly problem: Readonly<Record<ProblemKind, (about: string) => string>>;
  readonly remark: PlanRemarkWords;
  /** Of the plans to begin with. */
  readonly template: TemplateWords;
}

/** What the core has to say of a plan. */
export interface PlanRemarkWords {
  readonly obstacle: Readonly<Record<Obstacle, (about: string) => string>>;
  readonly warning: Readonly<Record<Warning, (about: string) => string>>;
}

export interface RunWords {
  /** "Round 2, 40°": a run by its name. */
  readonly named: (round: number, label: string) => string;
  readonly doNow: string;
  readonly leaveOut: string;
  readonly takeIn: string;
  readonly onceMore: string;
  readonly repeat: string;
  /** The operator has set the blades, though nothing could be heard of it. */
  readonly isSet: string;
  readonly logNow: string;
  readonly wait: string;
  readonly goOn: string;
  readonly thenSet: (label: string) => string;
}

export interface TrialWords {
  readonly heads: Readonly<Record<'trial' | 'set' | 'state' | 'actions', string>>;
  readonly strike: string;
  readonly restore: string;
  readonly again: string;
  readonly note: string;
  readonly move: string;
  readonly noRun: string;
  /** An action with the trial that it is done to. */
  readonly named: (action: string, trial: number) => string;
  readonly moving: (trial: number) => string;
  readonly giveHere: string;
  readonly giveNone: string;
  readonly undo: string;
  readonly undoes: Readonly<Record<Undoable['what'], (trial: number | null) => string>>;
}

export interface CoverWords {
  readonly cover: string;
  readonly reveal: string;
  readonly expects: string;
  readonly expected: string;
  readonly votesFor: (label: string) => string;
}

export interface TaughtWords {
  readonly lead: string;
  readonly action: Readonly<Record<KeyAction, string>>;
  readonly pressNow: string;
  readonly teach: string;
  readonly forget: string;
  readonly builtIn: (key: string) => string;
}
