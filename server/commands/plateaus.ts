import { once } from 'node:events';
import type { ClosedPlateau, Event } from '#core/events.ts';
import type { Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import type { Finding } from '#core/rig-check/finding.ts';
import { MOST } from '#core/rig-check/rules.ts';
import type { Estimate } from '#core/signal/plateau.ts';
import { QUANTITIES, type Quantity } from '#core/signal/sample.ts';
import { FAULT_KINDS, type FaultKind } from '#protocol/frame.ts';
import { fileLink, readCsvLines, shownName, type CsvBatch } from '../sources/csv.ts';
import { readArguments } from './arguments.ts';
import { InputError } from './exit-errors.ts';

/** Bad rows named one by one on stderr, before only their count is given. */
const BAD_ROWS_NAMED = 10;

/** What each kind of fault is, and what becomes of it. */
const FAULTS: Readonly<Record<FaultKind, string>> = {
  malformed: 'no row of numbers; it is left out',
  checksum: 'its checksum does not fit; it is left out',
  tooLong: 'too long for a row; it is left out',
  fieldCount: 'more or fewer fields than columns; it is left out',
  notFinite: 'a field holds no number; this reading is missing',
  outOfRange: 'a number that can’t be, or a time that goes back; it is left out',
  sequenceGap: 'rows are missing before it',
};

/** What a number that no rig gives may have been meant as, by the channel that it stands under. */
const OTHER_UNITS = {
  voltage_V: { name: 'voltage', unit: 'V', meant: 'mV', column: 'voltage_mV' },
  current_A: { name: 'current', unit: 'A', meant: 'mA', column: 'current_mA' },
  windSpeed_mps: { name: 'wind', unit: 'm/s', meant: 'km/h', column: 'wind_kmph' },
} as const;

/** By a signal, as shells tell it (common practice, no source). */
const STOPPED_BY_HAND = 130;

interface Found {
  plateaus: number;
  samples: number;
  readonly faults: Record<FaultKind, number>;
  badRows: number;
  /** Channels of which it was said that their unit must be wrong. */
  readonly doubted: Set<string>;
}

/** Says what is found, each plateau as soon as it has ended. */
interface Report {
  plateau(plateau: ClosedPlateau, number: number): string;
  end(found: Found): string;
}

/** `stillmark plateaus FILE.csv`: what the detector finds, exactly as it would live. */
export async function plateaus(argv: readonly string[]): Promise<number> {
  const { values, positionals } = readArguments(argv, { json: { type: 'boolean' } }, 1);
  const [file] = positionals;
  if (file === undefined) {
    throw new InputError('missing-file', 'Name the recording: stillmark plateaus FILE.csv [--json]');
  }
  const stopping = new AbortController();
  const byHand = (): void => stopping.abort('by hand');
  process.once('SIGINT', byHand);
  // Whoever read the output has gone, `head` say: nothing more is wanted.
  process.stdout.once('error', () => stopping.abort('unread'));
  try {
    await tellPlateaus(file, values.json ? createJsonReport() : TEXT_REPORT, stopping.signal);
  } finally {
    process.removeListener('SIGINT', byHand);
  }
  if (stopping.signal.reason !== 'by hand') return 0;
  console.error('Stopped: what was not read by then is not in it.');
  return STOPPED_BY_HAND;
}

async function tellPlateaus(file: string, report: Report, stopping: AbortSignal): Promise<void> {
  const state = begin(freshHead('imported'), 1);
  const faults = Object.fromEntries(FAULT_KINDS.map((kind) => [kind, 0])) as Found['faults'];
  const found: Found = { plateaus: 0, samples: 0, faults, badRows: 0, doubted: new Set() };
  const take = async (input: Input, where: string): Promise<void> => {
    const said = note(found, step(state, input).events, where, report);
    for (const finding of state.conductor.findings) doubtUnit(found, finding, where);
    // Nothing is asked of trials here: of an endless input they would heap up.
    if (state.openTrialId === null) state.book.trials.length = 0;
    if (said !== '') await write(said);
  };
  const finish = async (): Promise<void> => {
    await take({ kind: 'closed', at_s: 0, reason: 'ended' }, shownName(file));
    if (found.samples > 0) await write(report.end(found));
  };
  await take({ kind: 'opened', at_s: 0, link: fileLink(file) }, shownName(file));
  try {
    for await (const batch of readCsvLines(file, stopping)) {
      for (const { input, line } of inputsOf(batch)) {
        await take(input, `${shownName(file)} line ${line}`);
      }
    }
  } catch (error) {
    // What was found up to there holds.
    await finish();
    throw error;
  }
  await finish();
  if (found.samples === 0) {
    throw new InputError('no-samples', `${shownName(file)} holds a header but no row that could be read as a sample.`);
  }
}

function* inputsOf({
  firstLine,
  lines,
  dropped,
}: CsvBatch): Generator<{ input: Input; line: number }> {
  let line = firstLine;
  for (const text of lines) {
    yield { input: { kind: 'line', at_s: 0, text }, line };
    line += 1;
  }
  if (dropped !== undefined) {
    yield { input: { kind: 'dropped', at_s: 0, fault: dropped, count: 1 }, line };
  }
}

/** Waits where the reader of the output is slow, so that nothing heaps up. */
async function write(text: string): Promise<void> {
  if (!process.stdout.write(text)) await once(process.stdout, 'drain').catch(() => undefined);
}

/** Counts what happened, names bad rows. @returns what to print */
function note(found: Found, events: readonly Event[], where: string, report: Report): string {
  let said = '';
  const bad: Partial<Record<FaultKind, number>> = {};
  for (const event of events) {
    switch (event.kind) {
      case 'sample':
        found.samples += 1;
        break;
      case 'closed':
        if (!event.plateau.withdrawn) said += report.plateau(event.plateau, (found.plateaus += 1));
        break;
      case 'fault':
        found.faults[event.fault] += event.count;
        bad[event.fault] = (bad[event.fault] ?? 0) + event.count;
        break;
      case 'notice':
        console.error(`${where}: ${event.notice.message}`);
        break;
      case 'health':
      case 'judged':
      case 'declared':
      case 'trial':
      case 'ask':
      case 'experiment':
      case 'board':
        break;
    }
  }
  nameBadRow(found, bad, where);
  return said;
}

/** The numbers are taken as they are named all the same: only people know what was meant. */
function doubtUnit({ doubted }: Found, { kind, channel, value }: Finding, where: string): void {
  if (kind !== 'too-much' || channel === null || channel === 'rotorSpeed_radps') return;
  if (value === null || doubted.has(channel)) return;
  doubted.add(channel);
  const { name, unit, meant, column } = OTHER_UNITS[channel];
  console.error(
    `${where}: ${name} of ${Number(value.toPrecision(3))} ${unit}. No rig of this kind gives more ` +
      `than ${MOST[channel]} ${unit}, so the unit must be wrong. Nothing is converted by guess: if ` +
      `the column holds ${meant}, name it ${column} and read the file again.`,
  );
}

function nameBadRow(found: Found, bad: Partial<Record<FaultKind, number>>, where: string): void {
  const kinds = FAULT_KINDS.filter((kind) => bad[kind] !== undefined);
  if (kinds.length === 0) return;
  found.badRows += 1;
  if (found.badRows > BAD_ROWS_NAMED + 1) return;
  if (found.badRows > BAD_ROWS_NAMED) {
    console.error('Further bad rows are only counted.');
    return;
  }
  for (const kind of kinds) {
    const times = bad[kind] === 1 ? '' : ` in ${bad[kind]} fields`;
    console.error(`${where}: ${kind}${times} (${FAULTS[kind]})`);
  }
}

/** One object, as the contract has it, written piece by piece. */
function createJsonReport(): Report {
  const inner = (value: unknown): string => JSON.stringify(value, null, 2).replaceAll('\n', '\n  ');
  return {
    plateau: (plateau, number) => {
      const before = number === 1 ? '{\n  "plateaus": [' : ',';
      return `${before}\n    ${inner(plateauToJson(plateau)).replaceAll('\n', '\n  ')}`;
    },
    end: ({ plateaus, samples, faults }) => {
      const before = plateaus === 0 ? '{\n  "plateaus": []' : '\n  ]';
      return `${before},\n  "samples": ${samples},\n  "faults": ${inner(faults)}\n}\n`;
    },
  };
}

function plateauToJson(plateau: ClosedPlateau) {
  const { start_s, end_s, declared_s, endReason, sampleCount } = plateau;
  return {
    start_s,
    end_s,
    declared_s,
    endReason,
    sampleCount,
    mean: pick(plateau, 'mean'),
    standardUncertainty: pick(plateau, 'standardUncertainty'),
    degreesOfFreedom: pick(plateau, 'degreesOfFreedom'),
    effectiveSampleSize: pick(plateau, 'effectiveSampleSize'),
  };
}

function pick(
  { estimates }: ClosedPlateau,
  field: keyof Estimate,
): Partial<Record<Quantity, number>> {
  const picked: Partial<Record<Quantity, number>> = {};
  for (const quantity of QUANTITIES) {
    const estimate = estimates[quantity];
    if (estimate !== undefined) picked[quantity] = estimate[field];
  }
  return picked;
}

const TEXT_REPORT: Report = {
  plateau: ({ start_s, end_s, declared_s, endReason, estimates }, number) => {
    const values = QUANTITIES.flatMap((quantity) => {
      const estimate = estimates[quantity];
      return estimate === undefined ? [] : [`${quantity} ${formatEstimate(estimate)}`];
    });
    const [from, to, still] = [start_s, end_s, declared_s].map((time_s) => time_s.toFixed(1));
    return `${number}  ${from}–${to} s (still at ${still}, ${endReason})  ${values.join('  ')}\n`;
  },
  end: ({ plateaus, samples, faults }) => {
    const bad = FAULT_KINDS.filter((kind) => faults[kind] > 0).map((kind) => `${kind} ${faults[kind]}`);
    return `${plateaus} plateaus in ${samples} samples${bad.length > 0 ? `; faults: ${bad.join(', ')}` : ''}\n`;
  },
};

/** Value and standard uncertainty, with two significant digits of the latter (GUM 7.2.6). */
function formatEstimate({ mean, standardUncertainty: u }: Estimate): string {
  const decimals = u > 0 ? Math.min(9, Math.max(0, 1 - Math.floor(Math.log10(u)))) : 6;
  return `${mean.toFixed(decimals)} (u ${u.toFixed(decimals)})`;
}
