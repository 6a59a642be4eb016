/** What an operator says about the experiment, as it is recorded. */
import { z } from 'zod';
import { GeneratorReadingsSchema } from '../rotor/fitting/generator-readings.ts';
import { LampReadingsSchema } from '../rotor/fitting/lamp-readings.ts';
import { RotorAndAirSchema } from '../rotor/wind/rotor-and-air.ts';
import { FINDING_KINDS } from '../rig-check/finding.ts';
import { CHANNELS } from '../signal/sample.ts';
import { AddressSchema } from './address.ts';
import { CORRECTABLE, LineSchema } from './correction.ts';
import { ImportedTrialSchema, MOST_IMPORTED } from './import/row.ts';
import { KeyedReadingsSchema } from './keyed.ts';
import { LevelSchema, PlanSchema } from './plan/plan.ts';

/** More trials than a session of lessons has. */
const MOST_CORRECTED = 1000;

const runId = z.string().min(1).max(200);

export const CommandSchema = z.discriminatedUnion('say', [
  /** From here on, this plan (null: none). What was done under an earlier one stays. */
  z.strictObject({ say: z.literal('plan'), plan: PlanSchema.nullable() }),
  /** Do a run once more: one like it is added right behind it. */
  z.strictObject({ say: z.literal('again'), runId }),
  /** Leave a run out, or take that back. */
  z.strictObject({ say: z.literal('skip'), runId }),
  z.strictObject({ say: z.literal('unskip'), runId }),
  /** This run is the one to be done now. */
  z.strictObject({ say: z.literal('take-up'), runId }),
  /** The blades are set as asked, though no stop could be heard. */
  z.strictObject({ say: z.literal('is-set') }),
  /** Log what is read now, with the uncertainty that the window has. */
  z.strictObject({ say: z.literal('log-now') }),
  /** It will not settle: log the average over whole cycles, with the wider uncertainty it deserves. */
  z.strictObject({ say: z.literal('average') }),
  /** The question that is asked needs no answer: wait on, or leave the trial without a run. */
  z.strictObject({ say: z.literal('leave-it') }),
  /** Log nothing until told to go on. */
  z.strictObject({ say: z.literal('wait') }),
  z.strictObject({ say: z.literal('go-on') }),
  /** Answer to: nothing turns, is the fan on? */
  z.strictObject({ say: z.literal('fan-is-on'), on: z.boolean() }),
  /** Hide the answer from the room, and show it. */
  z.strictObject({ say: z.literal('cover') }),
  z.strictObject({ say: z.literal('reveal') }),
  /** The class expects this level of the first factor to be best: its number of votes. */
  z.strictObject({
    say: z.literal('predict'),
    level: z.string().min(1).max(24),
    votes: z.number().int().min(0).max(999),
  }),
  /** What the rotor, the air and the wind's measurement are; what was said before is forgotten. */
  z.strictObject({ say: z.literal('rotor-and-air'), described: RotorAndAirSchema }),
  /** Fit figures of the rig to these readings; null: to none. */
  z.strictObject({ say: z.literal('fit-generator'), readings: GeneratorReadingsSchema.nullable() }),
  z.strictObject({ say: z.literal('fit-lamp'), readings: LampReadingsSchema.nullable() }),
  /** What two meters show, typed in: a trial without a board. */
  z.strictObject({ say: z.literal('key-in'), ...KeyedReadingsSchema.shape }),
  /** Rows of a table from elsewhere become trials, each of the run that it was previewed with. */
  z.strictObject({
    say: z.literal('bring-in'),
    /** Name of the file; "" for what was pasted. */
    name: z.string().max(200),
    rows: z
      .array(ImportedTrialSchema.extend({ runId: runId.nullable() }))
      .min(1)
      .max(MOST_IMPORTED),
    /** Also rows that are in the session already. */
    again: z.boolean(),
  }),
  /** These trials were read with a wrong calibration; gain 1 and offset 0: they were not. */
  z.strictObject({
    say: z.literal('correct'),
    trials: z.array(AddressSchema).min(1).max(MOST_CORRECTED),
    quantity: z.enum(CORRECTABLE),
    line: LineSchema,
  }),
  /** A level was another one than the plan says, in all that was done at it. */
  z.strictObject({
    say: z.literal('relabel'),
    /** Key of the factor. */
    factor: z.string().min(1).max(48),
    /** The level's label in the plan. */
    from: z.string().min(1).max(24),
    to: LevelSchema,
  }),
  /** What was found of the rig is meant to be so. */
  z.strictObject({
    say: z.literal('accept-finding'),
    kind: z.enum(FINDING_KINDS),
    channel: z.enum(CHANNELS).nullable(),
  }),
  /** Take back what was said or marked last. */
  z.strictObject({ say: z.literal('undo') }),
]);
export type Command = z.infer<typeof CommandSchema>;
export type Relabel = Omit<Extract<Command, { say: 'relabel' }>, 'say'>;
