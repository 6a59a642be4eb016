/** Writes one session as a Data Package, in one pass over its recorded input. */
import { analysisOf } from '#core/experiment/analysis/analysis.ts';
import { experimentKept } from '#core/experiment/conductor/view.ts';
import { coefficientToTell, speedToTell } from '#core/experiment/budget/answer.ts';
import { trialsOfRun, EMPTY_LEDGER, type Ledger } from '#core/experiment/conductor/ledger.ts';
import { createBook, type TrialBook } from '#core/experiment/trial-book.ts';
import type { Input } from '#core/inputs.ts';
import { numberOf } from '#core/recording.ts';
import type { Sample } from '#core/signal/sample.ts';
import { StoreError } from '../store/errors.ts';
import type { StoreReader } from '../store/reader.ts';
import { wallTime } from '../store/rows.ts';
import { toLine } from '../store/session-rows.ts';
import type { RecordingInfo, SessionInfo, StoredTrial } from '../store/store.ts';
import { analysisJson, writeAnalysisTables } from './analysis-files.ts';
import { BUDGET_COLUMNS, budgetRows } from './budget-columns.ts';
import { deriveAgain } from './derive.ts';
import { descriptorOf, type PackageFacts, type Resource } from './descriptor.ts';
import {
  DEED_COLUMNS,
  plateauColumns,
  runColumns,
  SAMPLE_COLUMNS,
  type DeedRow,
  type PlateauRow,
  type RunRow,
} from './other-columns.ts';
import type { PackageTarget } from './package-target.ts';
import { readMe } from './read-me.ts';
import { DESCRIPTOR, ROWS } from './session-file.ts';
import { spreadsheet } from './spreadsheet.ts';
import { csvLines, tableSchema, type Column, type Table } from './table.ts';
import { trialColumns } from './trial-columns.ts';

export interface WriteOptions {
  readonly program: string;
  readonly licence: string | null;
}

/** @returns what could not be read back and was left out, one sentence each */
export function writePackage(
  reader: StoreReader,
  session: SessionInfo,
  target: PackageTarget,
  options: WriteOptions,
): readonly string[] {
  const writer = new PackageWriter(reader, session, target, options);
  try {
    return writer.write();
  } catch (error) {
    target.discard();
    throw error;
  }
}

class PackageWriter {
  readonly #reader: StoreReader;
  readonly #session: SessionInfo;
  readonly #target: PackageTarget;
  readonly #options: WriteOptions;
  readonly #resources: Resource[] = [];
  readonly #leftOut: string[];
  readonly #deeds: DeedRow[] = [];

  constructor(
    reader: StoreReader,
    session: SessionInfo,
    target: PackageTarget,
    options: WriteOptions,
  ) {
    this.#reader = reader;
    this.#session = session;
    this.#target = target;
    this.#options = options;
    this.#leftOut = reader.problemsOf(session.id).map(({ message }) => message);
  }

  write(): readonly string[] {
    const reader = this.#reader;
    const { id } = this.#session;
    const recordings = reader.recordings(id);
    const ledger = reader.ledger(id) ?? EMPTY_LEDGER;
    const trials = reader.trials(id);
    this.#writeTrials(
      trials.map((trial) => ({
        ...trial,
        powerCoefficient: coefficientToTell(trial, ledger),
        speed: speedToTell(trial, ledger),
      })),
    );
    const revisions = reader.revisions(id);
    this.#table('revisions', 'Every state of each trial that was committed, in order', {
      columns: trialColumns(revisions),
      rows: revisions,
    });
    this.#table('budgets', 'Where the uncertainty of each trial’s power comes from', {
      columns: BUDGET_COLUMNS,
      rows: budgetRows(trials, ledger),
    });
    this.#table('plateaus', 'Every steady stretch, brief and interrupted ones included', {
      columns: plateauColumns(),
      rows: plateauRows(reader, recordings),
    });
    this.#writePlan(ledger, trials);
    this.#writeAnalysis(ledger, trials);
    this.#writeSamples(recordings);
    this.#table('deeds', 'What people did and said, in order', { columns: DEED_COLUMNS, rows: this.#deeds });
    this.#put(ROWS, sessionLines(reader, id), {
      name: 'session',
      title: 'The stored rows, with the recorded input: what Stillmark derives everything from',
      description: 'One JSON object a line: a row of the tables described in Stillmark’s docs/data.md, with its checksum; blobs are base64.',
      format: 'jsonl',
      mediatype: 'application/jsonl',
    });
    const facts: PackageFacts = {
      ...this.#options,
      session: this.#session,
      recordings,
      leftOut: this.#leftOut,
    };
    this.#target.write('README.txt', [readMe(facts, this.#resources)]);
    const descriptor = descriptorOf(facts, this.#resources);
    this.#target.write(DESCRIPTOR, [`${JSON.stringify(descriptor, null, 2)}\n`]);
    this.#target.finish();
    return this.#leftOut;
  }

  #writeTrials(trials: readonly StoredTrial[]): void {
    const columns = trialColumns(trials);
    const title = 'One row a trial, as it stands';
    this.#table('trials', title, { columns, rows: trials });
    this.#put('trials.xlsx', [spreadsheet('trials', { columns, rows: trials })], {
      name: 'trials-spreadsheet',
      title: `${title}, as a spreadsheet`,
      format: 'xlsx',
      mediatype: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    });
  }

  #writePlan(ledger: Ledger, trials: readonly StoredTrial[]): void {
    const rows = ledger.runs.map((run, at): RunRow => ({
      place: at + 1,
      run,
      isSkipped: ledger.skipped.includes(run.id),
      trials: trialsOfRun(run.id, trials).map(({ id }) => id),
    }));
    this.#table('plan', 'The runs of the plan, in their order', { columns: runColumns(ledger.plan), rows });
    const { plan, isCovered, predictions } = ledger;
    this.#put('plan.json', [`${JSON.stringify({ plan, predictions, isCovered }, null, 2)}\n`], {
      name: 'plan-whole',
      title: 'The plan itself: question, factors, what is held constant; and what the class expected',
      format: 'json',
      mediatype: 'application/json',
    });
  }

  /** Without a plan nothing says which trials were meant to be alike. */
  #writeAnalysis(ledger: Ledger, trials: readonly StoredTrial[]): void {
    const analysis = analysisOf(experimentKept(ledger, trials), trials);
    if (analysis === null) return;
    this.#put('analysis.json', [`${JSON.stringify(analysisJson(analysis), null, 2)}\n`], {
      name: 'analysis',
      title: 'What the trials say: levels, differences, tests, the best level, what could be better',
      description: 'Worked out from the trials when this file was saved; power in W. How: docs/comparison.md and docs/choosing.md of Stillmark.',
      format: 'json',
      mediatype: 'application/json',
    });
    writeAnalysisTables(analysis, (name, title, table) => this.#table(name, title, table));
  }

  /** Deeds are gathered on the way. */
  #writeSamples(recordings: readonly RecordingInfo[]): void {
    const book = createBook();
    for (const recording of recordings) {
      const number = numberOf(recording);
      this.#table(`samples-${number}`, `Every sample of recording ${number}, calibrated`, {
        columns: sampleColumns(this.#reader, recording),
        rows: this.#samples(recording, book),
      });
    }
  }

  *#samples(recording: RecordingInfo, book: TrialBook): Generator<Sample> {
    try {
      for (const { input, events } of deriveAgain(this.#reader, recording, book)) {
        const deed = deedOf(input);
        if (deed !== null) this.#deeds.push(deedRow(recording, input.at_s, deed));
        for (const event of events) if (event.kind === 'sample') yield event.sample;
      }
    } catch (error) {
      if (!(error instanceof StoreError && error.code === 'data-damaged')) throw error;
      this.#leftOut.push(`From there on, samples of recording ${numberOf(recording)}: ${error.message}`);
    }
  }

  #table<Row>(name: string, title: string, table: Table<Row>): void {
    this.#put(`${name}.csv`, csvLines(table), {
      name,
      title,
      format: 'csv',
      mediatype: 'text/csv',
      schema: tableSchema(table.columns),
    });
  }

  #put(
    path: string,
    pieces: Iterable<string | Uint8Array>,
    about: Omit<Resource, 'path' | 'bytes' | 'hash'>,
  ): void {
    this.#resources.push({ ...about, path, ...this.#target.write(path, pieces) });
  }
}

function* plateauRows(
  reader: StoreReader,
  recordings: readonly RecordingInfo[],
): Generator<PlateauRow> {
  for (const { id, head } of recordings) {
    const recording = numberOf({ id, head });
    for (const plateau of reader.plateaus(id)) yield { recording, plateau };
  }
}

/** A rotor's speed is rarely measured: without it there is no column for it. */
function sampleColumns(
  reader: StoreReader,
  { id }: RecordingInfo,
): readonly Column<Sample>[] {
  const plateaus = reader.plateaus(id);
  const isTurnRead = plateaus.some(({ estimates }) => estimates.rotorSpeed_radps !== undefined);
  return isTurnRead ? SAMPLE_COLUMNS : SAMPLE_COLUMNS.filter(({ name }) => name !== 'rotorSpeed_radps');
}

function* sessionLines(reader: StoreReader, sessionId: string): Generator<string> {
  for (const row of reader.rows(sessionId)) yield `${toLine(row)}\n`;
}

interface Deed {
  readonly deed: string;
  readonly details: object;
}

function deedOf(input: Input): Deed | null {
  switch (input.kind) {
    case 'action':
      return { deed: input.action.kind, details: input.action };
    case 'command':
      return { deed: input.command.say, details: input.command };
    case 'zero':
      return { deed: 'zero', details: { channel: input.channel } };
    case 'configured':
      return { deed: 'settings', details: input.configuration };
    default:
      return null;
  }
}

function deedRow(recording: RecordingInfo, at_s: number, { deed, details }: Deed): DeedRow {
  const at = wallTime(recording.startedAt, at_s);
  return { recording: numberOf(recording), at_s, at, deed, details: JSON.stringify(details) };
}
