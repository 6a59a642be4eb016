/**
 * A table of trials from elsewhere: comma-separated text (RFC 4180), one row a trial, a first row
 * that names the columns with their units.
 *
 *     round,angle_deg,voltage_V,current_mA,u_voltage_V,u_current_mA,note
 *     1,20,2.31,43.1,0.02,0.4,
 *
 * What can be read is returned, and what can't with its line and what to do; whether to take the
 * one without the other is for a person to say. Nothing is guessed.
 */
import { createRowReader, EndlessRow, separatorIn, splitRow, type CsvRow } from '../../csv-rows.ts';
import { decimalSignOf } from '../../decimal-sign.ts';
import type { Plan } from '../plan/plan.ts';
import type { Table } from './cell.ts';
import { importColumn, isOwnTable, type ImportColumn, type ImportedQuantity } from './columns.ts';
import { RowUnreadable, type ImportFault } from './fault.ts';
import { MOST_IMPORTED, readRow, type ImportedTrial } from './row.ts';

const ROW_LIMIT = 65_536;

export interface ImportProblem {
  readonly line: number;
  readonly fault: ImportFault;
}

export interface TrialsImport {
  readonly columns: readonly ImportColumn[];
  /** Rows that are understood, in their order. */
  readonly trials: readonly ImportedTrial[];
  /** Rows that are not, and what the first row leaves open. */
  readonly problems: readonly ImportProblem[];
}

/**
 * @param plan names the factors, and its levels may stand by their labels; null: there is no plan,
 * and every column that is nothing else is a factor
 */
export function importTrials(text: string, plan: Plan | null): TrialsImport {
  const { rows, problem } = rowsOf(text);
  const [header, ...body] = rows;
  if (header === undefined) return nothing(problem ?? { line: 1, fault: { kind: 'table-empty' } });
  const separator = separatorIn(header.text);
  const names = (splitRow(header.text, separator) ?? []).map((name) => name.trim());
  const columns = names.map((name) => importColumn(name, plan?.factors ?? null));
  const fault = headerFault(columns);
  if (fault !== null) return { ...nothing({ line: header.line, fault }), columns };
  if (body.length > MOST_IMPORTED) {
    const tooMany: ImportFault = { kind: 'too-many-rows', most: MOST_IMPORTED };
    return { ...nothing({ line: body[MOST_IMPORTED]?.line ?? 1, fault: tooMany }), columns };
  }
  const cells = body.map(({ line, text: row }) => {
    return { line, fields: splitRow(row, separator) ?? [] };
  });
  const table: Table = {
    columns,
    plan,
    isOwn: isOwnTable(names),
    decimalSign: decimalSignOf(separator, cells.flatMap(({ fields }) => fields)),
    rounds: roundsOf(columns, cells),
    named: namedFactors(columns, cells),
  };
  const trials: ImportedTrial[] = [];
  const problems: ImportProblem[] = withoutUnit(columns, header.line);
  for (const { line, fields } of cells) {
    try {
      trials.push(readRow(fields, line, table));
    } catch (error) {
      if (!(error instanceof RowUnreadable)) throw error;
      problems.push({ line, fault: error.fault });
    }
  }
  if (problem !== null) problems.push(problem);
  return { columns, trials, problems };
}

interface Cells {
  readonly line: number;
  readonly fields: readonly string[];
}

function rowsOf(text: string): { rows: CsvRow[]; problem: ImportProblem | null } {
  if (text.includes('\0')) {
    return { rows: [], problem: { line: 1, fault: { kind: 'not-text' } } };
  }
  const reader = createRowReader(ROW_LIMIT);
  const rows: CsvRow[] = [];
  try {
    rows.push(...reader.push(text.replace(/^\uFEFF/, '')));
    rows.push(...reader.end());
    return { rows, problem: null };
  } catch (error) {
    if (!(error instanceof EndlessRow)) throw error;
    return { rows, problem: { line: error.line, fault: { kind: 'row-endless' } } };
  }
}

function nothing(problem: ImportProblem): TrialsImport {
  return { columns: [], trials: [], problems: [problem] };
}

function headerFault(columns: readonly ImportColumn[]): ImportFault | null {
  const names = columns.map(({ name }) => name);
  const twice = names.find((name, place) => name !== '' && names.indexOf(name) < place);
  if (twice !== undefined) return { kind: 'column-twice', column: twice };
  const meanings = columns.map(meaningOf);
  const second = meanings.findIndex((meaning, place) => meanings.indexOf(meaning) < place);
  if (second >= 0) {
    const first = names[meanings.indexOf(meanings[second] ?? '')] ?? '';
    return { kind: 'columns-alike', first, second: names[second] ?? '' };
  }
  if (names.every((name) => /^[-+.,\d\s]*$/.test(name))) {
    return { kind: 'names-missing' };
  }
  const has = (quantity: ImportedQuantity) =>
    columns.some((column) => column.as === 'value' && column.quantity === quantity);
  if (!has('power_W') && !(has('voltage_V') && has('current_A'))) {
    return withoutUnit(columns, 1)[0]?.fault ?? { kind: 'no-power' };
  }
  const hasFactor = columns.some(({ as }) => as === 'factor');
  return hasFactor || isOwnTable(names) ? null : { kind: 'no-factor' };
}

/** The same for two columns that would fill the same place of a trial. */
function meaningOf(column: ImportColumn): string {
  if ('quantity' in column) return `${column.as} ${column.quantity}`;
  if (column.as === 'factor') return `factor ${column.key}`;
  return column.as === 'unused' || column.as === 'without-unit' ? column.name : column.as;
}

function withoutUnit(columns: readonly ImportColumn[], line: number): ImportProblem[] {
  return columns.flatMap((column) => {
    if (column.as !== 'without-unit') return [];
    const stem = column.name.split('_')[0] ?? column.name;
    const wanted = column.units.map((unit) => `${stem}_${unit}`);
    return [{ line, fault: { kind: 'unit-missing', column: column.name, wanted } }];
  });
}

/** Whole numbers are rounds as they stand; names are counted in the order in which they come. */
function roundsOf(columns: readonly ImportColumn[], cells: readonly Cells[]): Map<string, number> {
  const place = columns.findIndex(({ as }) => as === 'round');
  const texts = new Set(cells.map(({ fields }) => (fields[place] ?? '').trim()));
  texts.delete('');
  const areNumbers = [...texts].every((text) => /^[1-9]\d{0,3}$/.test(text));
  return new Map([...texts].map((text, i) => [text, areNumbers ? Number(text) : i + 1]));
}

function namedFactors(columns: readonly ImportColumn[], cells: readonly Cells[]): Set<string> {
  const named = columns.flatMap((column, place) => {
    if (column.as !== 'factor') return [];
    const texts = cells.map(({ fields }) => (fields[place] ?? '').trim());
    const isNumber = (text: string) => /^[-+−]?\d*[.,]?\d+([eE][-+]?\d+)?$/.test(text);
    return texts.every((text) => text === '' || isNumber(text)) ? [] : [column.key];
  });
  return new Set(named);
}

