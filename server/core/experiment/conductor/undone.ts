/** What an operator did, with what was there before. */
import { z } from 'zod';
import { CalibrationSchema } from '../../configuration.ts';
import { CORRECTABLE, CorrectionSchema } from '../correction.ts';
import { LevelSchema } from '../plan/plan.ts';
import { TrialSchema } from '../trial.ts';
import { UndoableSchema } from '../view.ts';
import { DecidedSchema } from './decided.ts';

const done = UndoableSchema.omit({ place: true });
const trialId = z.number().int();

export const UndoneSchema = z.union([
  /** What a decision changed. */
  z.object({ done, before: DecidedSchema.partial() }),
  /** What an operator may do to a trial. */
  z.object({
    done,
    marks: TrialSchema.pick({
      struck: true,
      strikeReason: true,
      note: true,
      runId: true,
      factors: true,
    }),
  }),
  /** What trials were corrected by before. */
  z.object({
    done,
    corrections: z.array(z.object({ trialId, by: CorrectionSchema.shape.by })).readonly(),
  }),
  /** What makes the level again what it was. */
  z.object({
    done,
    back: z.object({ factor: z.string(), from: z.string(), to: LevelSchema }),
  }),
  /** What a board's readings went through before they were corrected from then on. */
  z.object({
    done,
    calibrated: z.object({
      boardId: z.string(),
      quantity: z.enum(CORRECTABLE),
      was: CalibrationSchema.nullable(),
    }),
  }),
  /** Trials that were made, by number: to take them back is to strike them. */
  z.object({ done, made: z.array(trialId).readonly() }),
]);
export type Undone = Readonly<z.infer<typeof UndoneSchema>>;
export type Calibrated = Extract<Undone, { calibrated: unknown }>['calibrated'];
