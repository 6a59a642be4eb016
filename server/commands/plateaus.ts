import type { ClosedPlateau, Event } from '#core/events.ts';
import { begin, type PipelineState } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import type { Estimate } from '#core/signal/plateau.ts';
import { QUANTITIES, type Quantity } from '#core/signal/sample.ts';
import { FAULT_KINDS, type FaultKind } from '#protocol/frame.ts';
import { fileLink, readCsvLines } from '../sources/csv.ts';
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

interface Found {
  readonly plateaus: ClosedPlateau[];
  samples: number;
  readonly faults: Record<FaultKind, number>;
  badRows: number;
}

/** `stillmark plateaus FILE.csv`: what the detector finds, exactly as it would live. */
export async function plateaus(argv: readonly string[]): Promise<number> {
  const { values, positionals } = readArguments(argv, { json: { type: 'boolean' } }, 1);
  const [file] = positionals;
  if (file === undefined) {
    throw new InputError('missing-file', 'Name the recording: stillmark plateaus FILE.csv [--json]');
  }
  const found = await findPlateaus(file);
  if (found.samples === 0) {
    throw new InputError('no-samples', `${file} holds a header but no row that could be read as a sample.`);
  }
  console.log(values.json ? JSON.stringify(toJson(found), null, 2) : toText(found));
  return 0;
}

async function findPlateaus(file: string): Promise<Found> {
  let state: PipelineState = begin(freshHead('imported'), 1);
  const faults = Object.fromEntries(FAULT_KINDS.map((kind) => [kind, 0])) as Found['faults'];
  const found: Found = { plateaus: [], samples: 0, faults, badRows: 0 };
  const take = (events: readonly Event[], where: string): void => {
    for (const event of events) note(found, event, where);
  };
  state = step(state, { kind: 'opened', at_s: 0, link: fileLink(file) }).state;
  for await (const batch of readCsvLines(file)) {
    let lineNumber = batch.firstLine;
    for (const text of batch.lines) {
      take(step(state, { kind: 'line', at_s: 0, text }).events, `${file} line ${lineNumber}`);
      lineNumber += 1;
    }
  }
  take(step(state, { kind: 'closed', at_s: 0, reason: 'ended' }).events, file);
  return found;
}

function note(found: Found, event: Event, where: string): void {
  switch (event.kind) {
    case 'sample':
      found.samples += 1;
      break;
    case 'closed':
      if (!event.plateau.withdrawn) found.plateaus.push(event.plateau);
      break;
    case 'fault':
      found.faults[event.fault] += event.count;
      nameBadRow(found, `${where}: ${event.fault} (${FAULTS[event.fault]})`);
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

function nameBadRow(found: Found, text: string): void {
  found.badRows += 1;
  if (found.badRows <= BAD_ROWS_NAMED) console.error(text);
  if (found.badRows === BAD_ROWS_NAMED + 1) console.error('Further bad rows are only counted.');
}

function toJson({ plateaus, samples, faults }: Found) {
  return { plateaus: plateaus.map(plateauToJson), samples, faults };
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

function toText({ plateaus, samples, faults }: Found): string {
  const rows = plateaus.map((plateau, index) => {
    const { start_s, end_s, endReason, estimates } = plateau;
    const values = QUANTITIES.flatMap((quantity) => {
      const estimate = estimates[quantity];
      return estimate === undefined ? [] : [`${quantity} ${formatEstimate(estimate)}`];
    });
    return `${index + 1}  ${start_s.toFixed(1)}–${end_s.toFixed(1)} s (${endReason})  ${values.join('  ')}`;
  });
  const bad = FAULT_KINDS.filter((kind) => faults[kind] > 0).map((kind) => `${kind} ${faults[kind]}`);
  const summary = `${plateaus.length} plateaus in ${samples} samples${bad.length > 0 ? `; faults: ${bad.join(', ')}` : ''}`;
  return [...rows, summary].join('\n');
}

/** Value and standard uncertainty, with two significant digits of the latter (GUM 7.2.6). */
function formatEstimate({ mean, standardUncertainty: u }: Estimate): string {
  const decimals = u > 0 ? Math.min(9, Math.max(0, 1 - Math.floor(Math.log10(u)))) : 6;
  return `${mean.toFixed(decimals)} (u ${u.toFixed(decimals)})`;
}
