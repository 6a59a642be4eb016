/** The numbers of the report as files: what the trials say, worked out anew when it is saved. */
import type { AnalysedPart, Analysis } from '#core/experiment/analysis/analysis.ts';
import type { Residual } from '#core/experiment/analysis/residuals.ts';
import type { MatchedLoad } from '#core/experiment/answer/matched-load.ts';
import type { LevelPair, LevelSummary } from '#core/experiment/comparison/comparison-schema.ts';
import type { Column, Table } from './table.ts';

/** A row of a part's table, with the factor that the part is about. */
type Of<Row> = Row & { readonly factor: string };

interface TestRow {
  readonly test: string;
  readonly statistic: number;
  readonly df1: number | null;
  readonly df2: number | null;
  readonly p: number;
}

/** As JSON: everything, with the sentences in English. Numbers of power are in W. */
export function analysisJson({ plan, parts, improvements, openQuestions }: Analysis): object {
  return {
    question: plan.question,
    design: plan.design,
    response: 'power_W',
    unit: 'W',
    parts: parts.map(({ answer, residuals, scatter, crept, twoFactors, sameWind, powerCurve }) => ({
      factor: answer.factor,
      comparison: answer.comparison,
      optimum: answer.optimum,
      curve: answer.curve,
      load: answer.load === null ? null : withoutCurve(answer.load),
      advice: answer.advice,
      residuals,
      scatter,
      crept,
      twoFactors: twoFactors?.table ?? null,
      sameWind,
      powerCurve,
    })),
    improvements,
    openQuestions,
  };
}

/** Optimum and curve stand with the answer's. */
function withoutCurve(load: MatchedLoad): object {
  if (load.kind === 'none') return load;
  const { kind, emf_V, resistance_Ohm, isWindRead } = load;
  return { kind, emf_V, resistance_Ohm, isWindRead };
}

/** Hands each table to `put`, by name and title. */
export function writeAnalysisTables(
  { parts }: Analysis,
  put: <Row>(name: string, title: string, table: Table<Row>) => void,
): void {
  put('analysis-levels', 'Each level with its mean power and 95 % limits', {
    columns: LEVEL_COLUMNS,
    rows: rowsOf(parts, ({ answer }) => answer.comparison.levels),
  });
  put('analysis-pairs', 'Differences of every two levels; the 95 % limits hold for all at once', {
    columns: PAIR_COLUMNS,
    rows: rowsOf(parts, pairsOf),
  });
  put('analysis-tests', 'Analyses of variance and other tests', {
    columns: TEST_COLUMNS,
    rows: rowsOf(parts, testsOf),
  });
  put('analysis-residuals', 'What each setting differs by from the mean of its level', {
    columns: RESIDUAL_COLUMNS,
    rows: rowsOf(parts, ({ residuals }) => residuals),
  });
}

function rowsOf<Row>(
  parts: readonly AnalysedPart[],
  of: (part: AnalysedPart) => readonly Row[],
): Of<Row>[] {
  return parts.flatMap((part) => {
    const factor = part.answer.factor.key;
    return of(part).map((row) => ({ ...row, factor }));
  });
}

type PairRow = LevelPair & { readonly method: string };

function pairsOf({ answer: { comparison } }: AnalysedPart): readonly PairRow[] {
  const { tukey, gamesHowell, blocked } = comparison;
  const methods = { tukey, gamesHowell, blocked: blocked?.pairs ?? null };
  return Object.entries(methods).flatMap(([method, pairs]) =>
    (pairs ?? []).map((pair) => ({ ...pair, method })),
  );
}

function testsOf({ answer: { comparison }, twoFactors }: AnalysedPart): readonly TestRow[] {
  const { anova, welch, blocked, equalScatter, ranks, drift } = comparison;
  const table = twoFactors?.table ?? null;
  const effects = table === null ? [] : ([
    ['first factor', table.factor],
    ['second factor', table.second],
    ['interaction', table.interaction],
  ] as const);
  const rows: (TestRow | null)[] = [
    anova && { test: 'one-way', statistic: anova.f, df1: anova.dfBetween, df2: anova.dfWithin, p: anova.p },
    welch && { test: 'welch', statistic: welch.f, df1: welch.df1, df2: welch.df2, p: welch.p },
    blocked && { test: 'blocked', statistic: blocked.f, df1: blocked.dfBetween, df2: blocked.dfWithin, p: blocked.p },
    equalScatter && { test: 'bartlett', statistic: equalScatter.statistic, df1: equalScatter.df, df2: null, p: equalScatter.p },
    ranks && { test: 'kruskal-wallis', statistic: ranks.h, df1: ranks.df, df2: null, p: ranks.p },
    drift && { test: 'drift', statistic: drift.slope, df1: null, df2: null, p: drift.p },
    ...effects.map(([test, effect]): TestRow | null => {
      const df2 = table?.dfWithin ?? null;
      return effect && { test, statistic: effect.f, df1: effect.df, df2, p: effect.p };
    }),
  ];
  return rows.filter((row) => row !== null);
}

const FACTOR = {
  name: 'factor',
  type: 'string',
  description: 'The factor that is varied, by its key.',
  of: ({ factor }: { readonly factor: string }) => factor,
} as const;

const LEVEL = 'A number in the unit that the factor’s key ends with, or a name; of several factors in every combination, the names of both.';

const LEVEL_COLUMNS: readonly Column<Of<LevelSummary>>[] = [
  FACTOR,
  { name: 'level', type: 'string', description: LEVEL, of: ({ level }) => String(level) },
  { name: 'settings', type: 'integer', description: 'How often it was set anew and the rotor turned.', of: ({ count }) => count },
  { name: 'did_not_turn', type: 'integer', description: 'How often the rotor did not turn; these are in no mean.', of: ({ didNotTurn }) => didNotTurn },
  { name: 'mean_W', type: 'number', unit: 'W', description: 'Mean power.', of: ({ mean }) => mean },
  { name: 'standard_deviation_W', type: 'number', unit: 'W', description: 'Of the settings. Empty: set once.', of: ({ standardDeviation }) => standardDeviation },
  { name: 'low_W', type: 'number', unit: 'W', description: 'Lower 95 % limit of the mean.', of: ({ low }) => low },
  { name: 'high_W', type: 'number', unit: 'W', description: 'Upper 95 % limit of the mean.', of: ({ high }) => high },
  { name: 'limits_from', type: 'string', description: 'trials: from what comes back when it is set anew; reading: from within one reading, the true limits are wider.', of: ({ limitsFrom }) => limitsFrom },
];

const PAIR_COLUMNS: readonly Column<Of<PairRow>>[] = [
  FACTOR,
  { name: 'method', type: 'string', description: 'tukey: one scatter for all levels; gamesHowell: each level’s own; blocked: within rounds and groups.', of: ({ method }) => method },
  { name: 'level_a', type: 'string', description: LEVEL, of: ({ a }) => String(a) },
  { name: 'level_b', type: 'string', description: LEVEL, of: ({ b }) => String(b) },
  { name: 'difference_W', type: 'number', unit: 'W', description: 'Mean of a less mean of b.', of: ({ difference }) => difference },
  { name: 'low_W', type: 'number', unit: 'W', description: 'Lower limit of the difference.', of: ({ low }) => low },
  { name: 'high_W', type: 'number', unit: 'W', description: 'Upper limit of the difference.', of: ({ high }) => high },
  { name: 'p', type: 'number', description: 'How often chance alone makes so large a difference, among so many levels.', of: ({ p }) => p },
];

const TEST_COLUMNS: readonly Column<Of<TestRow>>[] = [
  FACTOR,
  { name: 'test', type: 'string', description: 'one-way, welch, blocked: do the levels differ at all (F); first factor, second factor, interaction: of two factors in every combination (F); bartlett: do the levels scatter alike; kruskal-wallis: by ranks; drift: change of power from one trial number to the next.', of: ({ test }) => test },
  { name: 'statistic', type: 'number', description: 'F, chi-squared or, of drift, the slope in W a trial.', of: ({ statistic }) => statistic },
  { name: 'df_1', type: 'number', description: 'Degrees of freedom of what is tested.', of: ({ df1 }) => df1 },
  { name: 'df_2', type: 'number', description: 'Degrees of freedom of the scatter; empty where there are none.', of: ({ df2 }) => df2 },
  { name: 'p', type: 'number', description: 'How often chance alone makes as much.', of: ({ p }) => p },
];

const RESIDUAL_COLUMNS: readonly Column<Of<Residual>>[] = [
  FACTOR,
  { name: 'level', type: 'string', description: LEVEL, of: ({ level }) => String(level) },
  { name: 'trials', type: 'string', description: 'Numbers of the setting’s trials.', of: ({ trialIds }) => trialIds.join(' ') },
  { name: 'power_W', type: 'number', unit: 'W', description: 'Power of the setting: the mean of its trials.', of: ({ power_W }) => power_W },
  { name: 'mean_W', type: 'number', unit: 'W', description: 'Mean of its level.', of: ({ mean_W }) => mean_W },
  { name: 'residual_W', type: 'number', unit: 'W', description: 'Power less that mean.', of: ({ residual_W }) => residual_W },
];
