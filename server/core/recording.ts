/** The head of a recording: with the inputs that follow it, all that its trials depend on. */
import { z } from 'zod';
import { ConfigurationSchema, DEFAULT_CONFIGURATION } from './configuration.ts';
import { LedgerSchema } from './experiment/conductor/ledger.ts';
import { LearntSchema } from './signal/learnt.ts';

/**
 * The version of everything that derives trials from inputs. Raised with every change that can
 * alter a derived number; a recording replayed with another version yields a second derivation.
 */
export const CORE_VERSION = 25;

export const RecordingHeadSchema = z.object({
  coreVersion: z.number().int(),
  origin: z.enum(['board', 'simulated', 'imported']),
  configuration: ConfigurationSchema,
  /** The number that the first trial of this recording gets. */
  firstTrialId: z.number().int().positive(),
  /** What the detector had learnt from the session's earlier recordings. */
  learnt: LearntSchema.nullable(),
  /** The plan and what was decided about it in the session's earlier recordings. */
  experiment: LedgerSchema.nullable().default(null),
  /**
   * What its inputs and trials call this recording, where it was made in another data folder and
   * has another number here; null: the number it has.
   */
  number: z.number().int().positive().nullable().default(null),
});
export type RecordingHead = z.infer<typeof RecordingHeadSchema>;

/** The head of a recording that nothing went before: first trial, nothing learnt, nothing set. */
export function freshHead(origin: RecordingHead['origin']): RecordingHead {
  return {
    coreVersion: CORE_VERSION,
    origin,
    configuration: DEFAULT_CONFIGURATION,
    firstTrialId: 1,
    learnt: null,
    experiment: null,
    number: null,
  };
}

/** The number by which a recording's own inputs and trials call it. */
export function numberOf({ id, head }: {
  readonly id: number;
  readonly head: Pick<RecordingHead, 'number'>;
}): number {
  return head.number ?? id;
}
