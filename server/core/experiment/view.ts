/** The experiment as the pages are shown it. */
import { z } from 'zod';
import { NO_FITS, RigFitsSchema } from '../rotor/fitting/rig-fits.ts';
import { RotorAndAirSchema } from '../rotor/wind/rotor-and-air.ts';
import { KnownAirSchema } from './budget/known-air.ts';
import { FindingSchema } from '../rig-check/finding.ts';
import { KnownInstrumentSchema } from './budget/known-instruments.ts';
import { MetersSchema } from './keyed.ts';
import { PlanSchema, RunSchema } from './plan/plan.ts';

/**
 * What is to be done now, in the safe order. stop-fan: nothing may be touched yet; blades-stopping:
 * the fan is off, the blades still turn; set-blades: they stand, the next level may be set;
 * start-fan: it is set; settling: the wind blows; logged: the run has its trial; read-meters: no
 * board hears the rig, so that setting, wind and reading are all with the people at it.
 */
export const STEPS = [
  'no-plan',
  'stop-fan',
  'blades-stopping',
  'set-blades',
  'start-fan',
  'settling',
  'logged',
  'read-meters',
  'finished',
] as const;
export const StepSchema = z.enum(STEPS);
export type Step = z.infer<typeof StepSchema>;

export const RunViewSchema = RunSchema.extend({
  status: z.enum(['done', 'now', 'open', 'skipped']),
  /** Committed trials that are given to it and not struck, oldest first. */
  trialIds: z.array(z.number().int()).readonly(),
});
export type RunView = z.infer<typeof RunViewSchema>;

/** Something that the tool can't hear and asks once; logging and pages go on meanwhile. */
export const QuestionSchema = z.discriminatedUnion('kind', [
  /** Nothing turns and there is no anemometer: does the fan run? */
  z.object({ kind: z.literal('is-fan-on') }),
  /** It will not settle: take the average, skip the run, or wait. */
  z.object({ kind: z.literal('unsettled'), cause: z.enum(['cycle', 'gusts', 'drift']) }),
  /** A steady stretch that no run asked for; it stays unassigned until somebody moves it. */
  z.object({ kind: z.literal('unassigned'), trialId: z.number().int() }),
]);
export type Question = z.infer<typeof QuestionSchema>;

/** What makes a trial doubtful, to be looked at by a person. */
export const DoubtSchema = z.object({
  trialId: z.number().int(),
  kind: z.enum(['far-from-others', 'wind-drift', 'power-drift']),
  /** One sentence, English; the numbers beside it are for other languages. */
  message: z.string(),
  /** How far off, as a share of what was expected. */
  share: z.number(),
});
export type Doubt = z.infer<typeof DoubtSchema>;

/** Something an operator did that can be taken back. */
export const UndoableSchema = z.object({
  what: z.enum([
    'strike', 'restore', 'note', 'move', 'log-now', 'average', 'fan-is-on', 'key-in', 'bring-in',
    'correct', 'correct-from-now', 'relabel', 'accept-finding', 'rotor-and-air', 'fit-generator', 'fit-lamp',
    'plan', 'again', 'skip', 'unskip', 'take-up', 'cover', 'reveal', 'predict',
  ]),
  /** The trial that it was done to; null when it was none. */
  trialId: z.number().int().nullable(),
  /** The how-manieth of what can be taken back, so that two alike are told apart. */
  place: z.number().int().positive(),
});
export type Undoable = z.infer<typeof UndoableSchema>;

export const ExperimentViewSchema = z.object({
  plan: PlanSchema.nullable(),
  /** In the order in which they are to be done. */
  runs: z.array(RunViewSchema).readonly(),
  step: StepSchema,
  /** The run that the step is about: the one just logged while `logged`, else the one at work. */
  runId: z.string().nullable(),
  /** The run after it. */
  nextRunId: z.string().nullable(),
  question: QuestionSchema.nullable(),
  doubts: z.array(DoubtSchema).readonly(),
  /** What the readings say of the rig's wiring and place, but for what is meant to be so. */
  findings: z.array(FindingSchema).readonly(),
  /** An anemometer tells whether the fan is off; without one a person has to look. */
  isWindHeard: z.boolean(),
  /** The operator has said wait: nothing is logged. */
  isWaiting: z.boolean(),
  /** Answer plot and sentence are hidden from the room until the mentor reveals them. */
  isCovered: z.boolean(),
  /** What the class expects to be best: votes for each level of the first factor, by label. */
  predictions: z.record(z.string(), z.number().int().nonnegative()),
  /** What the session's recordings were measured with, as far as anybody or the board has said. */
  instruments: z.array(KnownInstrumentSchema).readonly(),
  /** The meters that readings were keyed in from last; null: none yet. */
  meters: MetersSchema.nullable(),
  /** What power coefficients rest on besides the readings; null: nobody has said. */
  rotorAndAir: RotorAndAirSchema.nullable(),
  /** Readings that figures of the rig are fitted to. */
  fits: RigFitsSchema,
  /** What boards have said of the air, for each recording. */
  airs: z.array(KnownAirSchema).readonly(),
  /** What undo would take back; null: nothing. */
  undoes: UndoableSchema.nullable(),
  /** From one logged trial to the next, s, as a rule; null until seen often enough. */
  usualRun_s: z.number().nullable(),
});
export type ExperimentView = z.infer<typeof ExperimentViewSchema>;

/** Before there is a plan. */
export const NO_EXPERIMENT: ExperimentView = {
  plan: null,
  runs: [],
  step: 'no-plan',
  runId: null,
  nextRunId: null,
  question: null,
  doubts: [],
  findings: [],
  isWindHeard: false,
  isWaiting: false,
  isCovered: false,
  predictions: {},
  instruments: [],
  meters: null,
  rotorAndAir: null,
  fits: NO_FITS,
  airs: [],
  undoes: null,
  usualRun_s: null,
};
