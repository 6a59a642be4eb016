/** What is compared, and what comes of it, as zod schemas: both may go over the wire. */
import { z } from 'zod';

/** A level as a trial carries it: a number in the factor's unit, or a name. */
const level = z.union([z.number(), z.string()]);
export type LevelKey = z.infer<typeof level>;

/** Squares of larger ones, and sums of these, would leave the range of a double. */
export const LARGEST_RESPONSE = 1e100;

export const ComparedTrialSchema = z.strictObject({
  level,
  /** In any one unit; more is better. Not used where the rotor did not turn. */
  response: z.number().min(-LARGEST_RESPONSE).max(LARGEST_RESPONSE),
  /** An outcome of its own: no small number, and outside the model of the scatter. */
  didNotTurn: z.boolean(),
  /** Round, group or rig; null where there is none. */
  block: level.nullable(),
  /** Its place in time; null where that is not known. */
  order: z.number().nullable(),
  /** Level of a second factor; null where there is none. */
  second: level.nullable(),
  /** Of this one reading, in the response's unit; null where unknown. */
  standardUncertainty: z.number().positive().nullable(),
});
export type ComparedTrial = Readonly<z.infer<typeof ComparedTrialSchema>>;

export const ComparisonInputSchema = z.strictObject({
  /** Names as in a header, unit last: "angle_deg", "power_W". */
  factor: z.string(),
  response: z.string(),
  /**
   * `once`: the trials are done, and looked at for the first time. `often`: they are looked at while
   * they are made, and may be stopped for what they show; that takes more to be sure.
   */
  looks: z.enum(['once', 'often']),
  /** In the order in which they were made. */
  trials: z.array(ComparedTrialSchema),
});
export type ComparisonInput = Readonly<z.infer<typeof ComparisonInputSchema>>;

const number = z.number();
const count = z.number().int().nonnegative();

const LevelSummarySchema = z.object({
  level,
  /** Trials in which the rotor turned. */
  count,
  didNotTurn: count,
  mean: number.nullable(),
  standardDeviation: number.nullable(),
  /** 95 % limits of the mean; null where nothing is known of its scatter. */
  low: number.nullable(),
  high: number.nullable(),
  /**
   * `trials`: from what comes back when the level is set anew. `reading`: there is one trial, and
   * only the uncertainty within it is known: the true limits are wider.
   */
  limitsFrom: z.enum(['trials', 'reading']).nullable(),
});
export type LevelSummary = z.infer<typeof LevelSummarySchema>;

/** mean(a) − mean(b) with limits that hold for all pairs at once, 95 %. */
const LevelPairSchema = z.object({
  a: level,
  b: level,
  difference: number,
  low: number,
  high: number,
  p: number,
});
export type LevelPair = z.infer<typeof LevelPairSchema>;

const EffectSchema = z.object({ squares: number, df: number, f: number, p: number });

export const BEST_REASONS = [
  /** One level is best, and the others can be told apart from it. */
  'clear',
  'tied',
  /** Every level was tried once: how much setting it anew changes is not known. */
  'tried-once',
  /** All trials at each level read the same: the scatter can't be seen. */
  'no-scatter',
  'one-level',
  'nothing-turned',
] as const;

const BestSchema = z.object({
  /** Highest so far; null where nothing turned. */
  level: level.nullable(),
  /** Levels that can't be told apart from it yet. */
  tiedWith: z.array(level),
  reason: z.enum(BEST_REASONS),
  /** By which of the differences that was judged; `every-look`: see docs/choosing.md. */
  method: z.enum(['tukey', 'gamesHowell', 'blocked', 'every-look']).nullable(),
  /** The level that comes next, and by how much the highest is above it. */
  lead: z
    .object({
      over: level,
      difference: number,
      /** Of the mean of the one that comes next. */
      share: number.nullable(),
      low: number.nullable(),
      high: number.nullable(),
    })
    .nullable(),
  statement: z.string(),
});
export type Best = z.infer<typeof BestSchema>;

const OptimumSchema = z.object({
  kind: z.enum(['interior', 'edge', 'unbounded', 'none']),
  /** In the factor's unit, never outside what was tried. */
  at: number.nullable(),
  low: number.nullable(),
  high: number.nullable(),
  method: z.string(),
  statement: z.string(),
});
export type Optimum = z.infer<typeof OptimumSchema>;

export const ComparisonSchema = z.object({
  levels: z.array(LevelSummarySchema),
  anova: z.object({ f: number, dfBetween: number, dfWithin: number, p: number }).nullable(),
  welch: z.object({ f: number, df1: number, df2: number, p: number }).nullable(),
  tukey: z.array(LevelPairSchema).nullable(),
  gamesHowell: z.array(LevelPairSchema).nullable(),
  /** Differences of levels within blocks; pairs are adjusted for the blocks. */
  blocked: z
    .object({
      f: number,
      dfBetween: number,
      dfWithin: number,
      p: number,
      fBlock: number,
      dfBlock: number,
      pBlock: number,
      pairs: z.array(LevelPairSchema),
    })
    .nullable(),
  /**
   * What `best` goes by where trials are looked at once: of the table that fits, limits widened where
   * two levels scatter more than all. Null where nothing can be told.
   */
  judged: z.array(LevelPairSchema.omit({ p: true })).nullable(),
  /** Each factor adjusted for the other, the interaction for both. */
  twoFactor: z
    .object({
      factor: EffectSchema,
      second: EffectSchema,
      interaction: EffectSchema.nullable(),
      dfWithin: number,
    })
    .nullable(),
  /** Bartlett's test whether the levels scatter alike. */
  equalScatter: z.object({ statistic: number, df: number, p: number }).nullable(),
  /** Kruskal and Wallis's test, by ranks. */
  ranks: z.object({ h: number, df: number, p: number }).nullable(),
  drift: z
    .object({
      slope: number,
      p: number,
      rankCorrelation: number,
      rankP: number,
      successiveRatio: number,
      successiveP: number,
    })
    .nullable(),
  best: BestSchema,
  optimum: OptimumSchema,
  next: z.array(z.object({ level, reason: z.string() })),
});
export type Comparison = z.infer<typeof ComparisonSchema>;
