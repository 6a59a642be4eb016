/**
 * The settling detector: a stream of samples in, judgements and plateaus out. No clock, no
 * randomness: the same samples give the same events, however they arrive. docs/settling.md tells
 * how it decides.
 */
import type { Learnt } from '../learnt.ts';
import type { EndReason, Judgement, Plateau, SettlingEvent } from '../plateau.ts';
import type { Sample } from '../sample.ts';
import { addSample, beginsNextBlock, resetBlock, takeBlock, type Block } from './block.ts';
import { declaredOf, finalPlateau, presentPlateau } from './evaluation.ts';
import { awaySince_s, watchExcursions } from './excursion.ts';
import { forget, remember } from './history.ts';
import { judge } from './judgement.ts';
import { extendRecord, type PlateauRecord } from './record.ts';
import { seek } from './seek.ts';
import { isIdle, sightOf } from './sight.ts';
import {
  createState,
  forgetPresent,
  learntFrom,
  stillLimit_V,
  type Detector,
  type Sight,
} from './state.ts';
import { decide } from './verdict.ts';
import { watch } from './watch.ts';

export type { Detector } from './state.ts';

const NOTHING: readonly SettlingEvent[] = Object.freeze([]);
/** Samples that stop for this long, and for this many periods, cut what was going on. */
const SILENCE_S = 2;
const SILENT_PERIODS = 5;
/** A plateau that lasted this long was worth its name: trying begins anew after it. */
const WORTHY_S = 5;
/** A rotor that starts or stops did so at most this long before it shows. */
const START_S = 0.4;

/** A detector with what an earlier recording has taught, or nothing. */
export function createDetector(learnt: Learnt | null): Detector {
  return createState(learnt);
}

/** Takes one sample; says something about five times a second of stream time. */
export function observe(detector: Detector, sample: Sample): readonly SettlingEvent[] {
  const { builder } = detector;
  let events = NOTHING;
  if (builder.sampleCount > 0) {
    const silence_s = sample.time_s - builder.last_s;
    if (silence_s > Math.max(SILENCE_S, SILENT_PERIODS * builder.period_s)) {
      events = interrupt(detector, builder.last_s);
    } else if (beginsNextBlock(builder, sample.time_s)) {
      events = takeIn(detector, takeBlock(builder, sample.time_s));
    }
  }
  addSample(builder, sample);
  return events;
}

/**
 * Link lost, board restarted or samples stopped at `time_s`: an open plateau ends there as
 * interrupted, the window is forgotten, what was learnt stays.
 */
export function interrupt(detector: Detector, time_s: number): readonly SettlingEvent[] {
  const events = close(detector, 'interrupted', time_s);
  forget(detector.history);
  resetBlock(detector.builder);
  forgetPresent(detector);
  return events;
}

/** The stream is over. */
export function finish(detector: Detector): readonly SettlingEvent[] {
  return close(detector, 'end', Infinity);
}

/** What people are shown of what was judged last; null while nothing was. */
export function judgementOf(detector: Detector): Judgement | null {
  return detector.last === null ? null : judge(detector, detector.last);
}

/** The plateau that is open now, with its estimates so far. */
export function openPlateau(detector: Detector): Plateau | null {
  return detector.record === null ? null : presentPlateau(detector, detector.record);
}

/** What to remember for the next recording on this rig. */
export function learntOf(detector: Detector): Learnt {
  return learntFrom(detector);
}

function takeIn(detector: Detector, block: Block): readonly SettlingEvent[] {
  remember(detector.history, block);
  notePeaks(detector, block);
  const away = watchExcursions(detector.excursions, detector.history, stillLimit_V(detector));
  if (detector.record !== null) extendRecord(detector.record, block, away);
  const sight = sightOf(detector, block);
  const idle = isIdle(sight);
  noteRest(detector, sight, block);
  const events: SettlingEvent[] = [];
  if (away) detector.passes = 0;
  else if (detector.record !== null) events.push(...keep(detector, detector.record, sight));
  else if (!idle) events.push(...find(detector, sight));
  const verdict = decide(detector, sight, idle);
  detector.last = { sight, verdict };
  events.push({ kind: 'judged', verdict });
  return events;
}

function notePeaks({ peaks }: Detector, { means }: Block): void {
  for (let column = 0; column < means.length; column++) {
    const size = Math.abs(means[column]!);
    if (size > peaks[column]!) peaks[column] = size;
  }
}

/** A rotor that starts or stops is a change, and the beginning of a warm-up. */
function noteRest(detector: Detector, { still }: Sight, block: Block): void {
  if (still) {
    detector.started_s = block.end_s;
    detector.suspicious = false;
  }
  if (detector.record === null && detector.rested !== still) {
    detector.origin_s = Math.max(detector.origin_s, block.start_s - START_S);
  }
  detector.rested = still;
}

function find(detector: Detector, sight: Sight): readonly SettlingEvent[] {
  const record = seek(detector, sight);
  if (record === null) return NOTHING;
  detector.record = record;
  return [{ kind: 'declared', ...declaredOf(record) }];
}

function keep(detector: Detector, record: PlateauRecord, sight: Sight): readonly SettlingEvent[] {
  const leaving = watch(detector, record, sight);
  if (leaving === null) return NOTHING;
  detector.manner = leaving.manner;
  if (leaving.manner !== 'step') detector.suspicious = true;
  const events = close(detector, 'changed', leaving.end_s);
  detector.origin_s = leaving.end_s;
  if (Number.isNaN(detector.tryingSince_s)) detector.tryingSince_s = leaving.end_s;
  return events;
}

function close(detector: Detector, endReason: EndReason, end_s: number): readonly SettlingEvent[] {
  const { record } = detector;
  if (record === null) return NOTHING;
  const changed = endReason === 'changed';
  // What stands off as the stream ends or is cut never came back.
  const last_s = Math.min(end_s, awaySince_s(detector.excursions, detector.history));
  const crept = changed && detector.manner === 'drift';
  const plateau = finalPlateau(detector, record, { end_s: last_s, crept, changed });
  const length_s = plateau.end_s - plateau.start_s;
  if (!plateau.withdrawn && length_s >= WORTHY_S) detector.tryingSince_s = NaN;
  // What has passed for still may do so again.
  if (plateau.withdrawn && changed) detector.suspicious = true;
  detector.record = null;
  detector.passes = 0;
  return [{ kind: 'closed', plateau, endReason }];
}
