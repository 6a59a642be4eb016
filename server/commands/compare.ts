import { isLevelByLevel, isSameOrder } from '#core/experiment/answer/same-order.ts';
import { compare as compareTrials } from '#core/experiment/comparison/compare.ts';
import type {
  ComparedTrial,
  Comparison,
  LevelSummary,
} from '#core/experiment/comparison/comparison-schema.ts';
import { wordsFor, type Words } from '#core/experiment/comparison/words.ts';
import { decimalAt, firstPlace, NO_VALUE, placeOf } from '#core/metrology/format.ts';
import { aligned } from './aligned.ts';
import { readArguments } from './arguments.ts';
import { DID_NOT_TURN, readTrials, type Columns } from './compared-table.ts';
import { InputError } from './exit-errors.ts';

const USAGE =
  'stillmark compare FILE.csv --factor COLUMN --response COLUMN [--block COLUMN] [--second COLUMN] [--order COLUMN] [--uncertainty COLUMN] [--json]';

/** `stillmark compare FILE.csv`: which level gives the most, and how sure that is. */
export async function compare(argv: readonly string[]): Promise<number> {
  const text = { type: 'string' } as const;
  const optional = { block: text, second: text, order: text, uncertainty: text } as const;
  const options = { factor: text, response: text, ...optional, json: { type: 'boolean' } } as const;
  const { values, positionals } = readArguments(argv, options, 1);
  const [file] = positionals;
  const { json, factor, response, ...others } = values;
  if (file === undefined) throw new InputError('missing-file', `Name the table of trials: ${USAGE}`);
  if (factor === undefined || response === undefined) {
    throw new InputError('missing-column', `Say which columns to compare: ${USAGE}`);
  }
  const columns: Columns = { factor, response, ...others };
  const named = Object.values(columns).filter((name) => name !== undefined);
  if (new Set(named).size < named.length) {
    throw new InputError('bad-value', `Each option names a column of its own: ${USAGE}`);
  }
  const trials = await readTrials(file, columns);
  const comparison = comparisonOf(columns, trials);
  console.log(json ? JSON.stringify(comparison, null, 2) : toText(comparison, columns));
  if (isOrderWeak(trials)) console.error(WEAK_ORDER);
  return 0;
}

const WEAK_ORDER =
  'The levels came in the same order each time, or one after the other. What creeps (a lamp that warms, a fan that tires) may pass for the level: do one more round in another order.';

/** False where no order is known. */
function isOrderWeak(trials: readonly ComparedTrial[]): boolean {
  if (trials.some(({ order }) => order === null)) return false;
  const inOrder = [...trials].sort((a, b) => (a.order ?? 0) - (b.order ?? 0));
  return isLevelByLevel(inOrder) || isSameOrder(inOrder);
}

/** With a second factor its combinations with the first are what is compared. */
function comparisonOf(
  { factor, second, response }: Columns,
  trials: readonly ComparedTrial[],
): Comparison {
  const compared = (these: ComparedTrial[]): Comparison =>
    compareTrials({ factor, response, looks: 'once', trials: these });
  if (second === undefined) return compared([...trials]);
  const [firstWords, secondWords] = [factor, second].map((name) => {
    return wordsFor({ factor: name, response });
  });
  const combined = trials.map((trial) => {
    const parts = [firstWords?.level(trial.level), secondWords?.level(trial.second ?? '')];
    return { ...trial, level: parts.join(', '), second: null };
  });
  return { ...compared(combined), twoFactor: compared([...trials]).twoFactor };
}

function toText(comparison: Comparison, columns: Columns): string {
  const words = wordsFor(columns);
  const { levels, best, optimum, next } = comparison;
  const tests = testsOf(comparison);
  return [
    ...aligned([['level', 'trials', 'mean', '± 95 %'], ...levels.map((one) => rowOf(one, words))]),
    '',
    best.statement,
    ...(optimum.kind === 'none' ? [] : [optimum.statement]),
    ...(next.length > 0 ? ['', 'Next:'] : []),
    ...next.map(({ level, reason }) => `  ${words.level(level)}: ${reason}`),
    ...(tests.length > 0 ? ['', 'Do the levels differ at all?'] : []),
    ...tests,
    ...twoFactorLines(comparison, columns),
    ...driftLines(comparison, words),
  ].join('\n');
}

function rowOf(summary: LevelSummary, words: Words): string[] {
  const { level, count, didNotTurn, mean, low, high, limitsFrom } = summary;
  if (mean === null) return [words.level(level), String(didNotTurn), DID_NOT_TURN, ''];
  const half = low === null || high === null ? null : (high - low) / 2;
  const place = half === null ? (mean === 0 ? 0 : firstPlace(mean) - 3) : placeOf(half);
  const spread = half === null ? NO_VALUE : decimalAt(half, place);
  const isLeast = limitsFrom === 'reading';
  return [
    words.level(level),
    String(count),
    decimalAt(mean, place),
    isLeast ? `± ${spread} at least` : `± ${spread}`,
  ];
}

function testsOf({ anova, welch }: Comparison): string[] {
  return [
    anova && `same scatter at all levels: ${effect({ ...anova, df: anova.dfBetween }, anova.dfWithin)}`,
    welch && `each with its own: F(${welch.df1}, ${digits(welch.df2)}) = ${digits(welch.f)}, ${chance(welch.p)}`,
  ].flatMap((test) => (test === null ? [] : [`  ${test}`]));
}

function twoFactorLines({ twoFactor }: Comparison, columns: Columns): string[] {
  if (twoFactor === null) return [];
  const { factor, second, interaction, dfWithin } = twoFactor;
  return [
    '',
    'Which of the two factors matters?',
    `  ${columns.factor}: ${effect(factor, dfWithin)}`,
    `  ${columns.second ?? ''}: ${effect(second, dfWithin)}`,
    interaction === null
      ? '  whether one changes what the other does is not known: set each combination twice'
      : `  one changes what the other does: ${effect(interaction, dfWithin)}`,
  ];
}

function driftLines({ drift }: Comparison, { amount }: Words): string[] {
  if (drift === null) return [];
  const { slope, p, rankCorrelation, rankP } = drift;
  return [
    '',
    'Has anything crept while you measured?',
    `  in a straight line: ${amount(slope)} with each step, ${chance(p)}`,
    `  by ranks: correlation ${digits(rankCorrelation)}, ${chance(rankP)}`,
  ];
}

interface Effect {
  readonly f: number;
  readonly df: number;
  readonly p: number;
}

function effect({ f, df, p }: Effect, dfWithin: number): string {
  return `F(${df}, ${dfWithin}) = ${digits(f)}, ${chance(p)}`;
}

function chance(p: number): string {
  return p < 0.0001 ? 'p < 0.0001' : `p = ${digits(p)}`;
}

function digits(value: number): string {
  return String(Number(value.toPrecision(3))).replace(/^-/, '−');
}
