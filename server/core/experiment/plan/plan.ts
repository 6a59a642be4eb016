/**
 * What is to be found out and how: the factors with their levels, what is held constant, how often,
 * in which order. A plan is data; `runs.ts` makes its runs of it.
 */
import { z } from 'zod';

/** Plans beyond this are a mistake in typing, not a lesson. */
export const MOST_RUNS = 300;
export const MOST_LEVELS = 20;
export const MOST_ROUNDS = 20;

const text = (longest: number) => z.string().trim().min(1).max(longest);

export const LevelSchema = z.strictObject({
  /** As people read it, with its unit: "25°", "80 mm", "short". */
  label: text(24),
  /** In the unit that the factor's key ends with; null for a level that is only a name. */
  value: z.number().nullable(),
});
export type Level = z.infer<typeof LevelSchema>;

/** What a factor is; `own` is anything else that can be set. */
export const FACTOR_KINDS = ['angle', 'length', 'blades', 'fan', 'load', 'own'] as const;

export const FactorSchema = z.strictObject({
  kind: z.enum(FACTOR_KINDS),
  /** The name under which a trial carries its level, unit last: "angle_deg", "length_m". */
  key: z
    .string()
    .regex(
      /^[A-Za-z][A-Za-z0-9]{0,30}(_[A-Za-z0-9]{1,8})?$/,
      'letters and digits, a letter first, and the unit after a "_", like "angle_deg"',
    ),
  /** As people read it: "Blade angle". */
  name: text(40),
  levels: z.array(LevelSchema).min(1).max(MOST_LEVELS),
  /** The level that it is held at while another factor of a series is varied. */
  baseLevel: z.number().int().nonnegative().default(0),
});
export type Factor = z.infer<typeof FactorSchema>;

/** Something that is not to change in the whole experiment. */
export const ConstantSchema = z.strictObject({ name: text(40), value: text(60) });
export type Constant = z.infer<typeof ConstantSchema>;

export const PlanSchema = z.strictObject({
  question: text(120),
  factors: z.array(FactorSchema).min(1).max(3),
  /**
   * single: one factor; factorial: every combination of levels; series: one factor after the
   * other, the rest at their base level.
   */
  design: z.enum(['single', 'factorial', 'series']),
  /** How often each level is set anew. A round holds every level once and is a block in time. */
  rounds: z.number().int().min(1).max(MOST_ROUNDS),
  /** Readings for each setting: beyond the first the blades stay as they are. */
  repeats: z.number().int().min(1).max(5).default(1),
  /** random: shuffled within each round from `seed`; listed: as the levels stand. */
  order: z.enum(['random', 'listed']),
  seed: z.number().int().nonnegative().max(0xffffffff),
  /** Groups or rigs that take part, each with rounds of its own; none: one group. */
  groups: z.array(text(24)).max(8).default([]),
  /** A level that comes back in between, to see drift: before every so many runs. */
  reference: z
    .strictObject({
      every: z.number().int().min(2).max(50),
      /** Index of its level for each factor. */
      levels: z.array(z.number().int().nonnegative()),
    })
    .nullable()
    .default(null),
  constants: z.array(ConstantSchema).max(12).default([]),
  /** Local time of day of the bell, "14:45"; null: open end. */
  finishBy: z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day from "00:00" to "23:59"')
    .nullable()
    .default(null),
});
export type Plan = z.infer<typeof PlanSchema>;

/** A row of the plan: one setting of the rig, to be measured once. */
export const RunSchema = z.object({
  /**
   * Made of what the run is, for instance "r2 angle_deg=20", so that a run of a changed plan that
   * has been done already is known again.
   */
  id: z.string(),
  /** From 1. */
  round: z.number().int(),
  group: z.string().nullable(),
  /** Index of its level for each factor of the plan; −1: a level that the plan no longer has. */
  levels: z.array(z.number().int()).readonly(),
  /** Its levels as people read them while the plan had them; only where it has them no longer. */
  lastWords: z.string().optional(),
  /** 1: the blades are set anew; 2 and on: they stay as they were for the run before. */
  repeat: z.number().int(),
  isReference: z.boolean(),
  /** Added by an operator, because one was not good enough. */
  isAgain: z.boolean(),
});
export type Run = Readonly<z.infer<typeof RunSchema>>;
