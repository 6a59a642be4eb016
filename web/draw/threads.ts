/**
 * Threads and cord. Each slice of the detector's window is a thread that leaves the power curve
 * where the curve was last at that height and runs level, on the shared power axis, to the place
 * of the trial to come. Joined threads lie packed as a cord; loose ones are thin and waver the
 * more the further off they are (the wave is a sign, not data). All end at their true height.
 */
import type { CurveData } from './pixel-columns.ts';

/** Where things are, in pixels of the power field. */
export interface FieldPlaces {
  /** Pixel of a stream time on the power curve. */
  xOf(time_s: number): number;
  yOf(power_W: number): number;
  /** Right end of the curve: now. */
  readonly nowX: number;
  /** Left edge of the slot, where threads end. */
  readonly slotX: number;
  /** Width of a cord of all threads: the height of a trial's dash. */
  readonly cordWidth: number;
  readonly rem: number;
}

export interface Cord {
  readonly x: number;
  readonly y: number;
  readonly toX: number;
  readonly width: number;
}

export interface Threads {
  readonly cord: Cord | null;
  /** SVG paths of the loose threads. */
  readonly loose: readonly string[];
}

/**
 * waver: loose threads wave about their own height; crossing: they keep crossing one another;
 * straight: for those who want less motion.
 */
export type Gait = 'waver' | 'crossing' | 'straight';

const THREADS_OF_A_CORD = 24;
/** Heights reached longer ago than this are another story. */
const LOOK_BACK_S = 12;
/** Points of the curve that are averaged before heights are looked for on it. */
const SMOOTHING = 6;

/**
 * @param look.level_W height of the cord: power now
 * @param look.phase in radians; moves the wave along, 0 for no movement
 */
export function layThreads(
  threads: readonly { readonly power_W: number; readonly joined: boolean }[],
  curve: CurveData,
  places: FieldPlaces,
  look: { readonly level_W: number; readonly gait: Gait; readonly phase: number },
): Threads {
  const joined = threads.filter((thread) => thread.joined).map((thread) => thread.power_W);
  const loose = threads.filter((thread) => !thread.joined).map((thread) => thread.power_W);
  const smooth = smoothed(curve, LOOK_BACK_S);
  const middleY = places.yOf(look.level_W);
  const cord =
    joined.length === 0 ? null : layCord(joined, look.level_W, threads.length, smooth, places);
  const paths = loose.map((power_W, i) => {
    const from_s = lastTimeAt(smooth, power_W);
    const line = {
      x: from_s === null ? places.nowX : places.xOf(from_s),
      y: places.yOf(power_W),
      toX: places.slotX,
    };
    switch (look.gait) {
      case 'crossing':
        return crossingPath(line, middleY, places.rem, look.phase);
      case 'waver':
        return waverPath(line, middleY, places.rem, look.phase + i * 2.4);
      case 'straight':
        return straightPath(line);
    }
  });
  return { cord, loose: paths };
}

/** The cord begins where the curve met its height, once it was in the band of the joined. */
function layCord(
  joined: readonly number[],
  level_W: number,
  count: number,
  curve: CurveData,
  places: FieldPlaces,
): Cord {
  const low = Math.min(...joined);
  const high = Math.max(...joined);
  const entry_s = lastEntry(curve, low - (high - low) / 2, high + (high - low) / 2);
  const from_s = entry_s === null ? null : firstTimeAt(curve, level_W, entry_s);
  const share = joined.length / Math.max(count, 1);
  return {
    x: from_s === null ? places.nowX : Math.min(places.xOf(from_s), places.nowX),
    y: places.yOf(level_W),
    toX: places.slotX,
    width: Math.max(share * places.cordWidth, places.cordWidth / THREADS_OF_A_CORD, 1.5),
  };
}

/** The newest part of the curve as a running mean: noise does not count as having been there. */
function smoothed({ time_s, all }: CurveData, length_s: number): CurveData {
  const from_s = (time_s.at(-1) ?? 0) - length_s;
  const out: CurveData = { time_s: [], all: [], settled: [] };
  const recent: number[] = [];
  let sum = 0;
  all.forEach((value, i) => {
    if (value === null) {
      recent.length = 0;
      sum = 0;
    } else {
      recent.push(value);
      sum += value;
      if (recent.length > SMOOTHING) sum -= recent.shift() ?? 0;
    }
    if ((time_s[i] ?? 0) < from_s) return;
    out.time_s.push(time_s[i] ?? 0);
    out.all.push(value === null ? null : sum / recent.length);
  });
  return out;
}

/** When the curve was last at this height; null when it never was. */
export function lastTimeAt(curve: CurveData, height: number): number | null {
  for (let i = curve.all.length - 1; i > 0; i--) {
    const time_s = crossingTime_s(curve, i, height);
    if (time_s !== null) return time_s;
  }
  return null;
}

/** When the curve was first at this height from a time on; null when it has not been since. */
function firstTimeAt(curve: CurveData, height: number, from_s: number): number | null {
  for (let i = 1; i < curve.all.length; i++) {
    if ((curve.time_s[i] ?? 0) < from_s) continue;
    const time_s = crossingTime_s(curve, i, height);
    if (time_s !== null) return time_s;
  }
  return null;
}

/** When the curve met a height on its way to the i-th point; null when it did not. */
function crossingTime_s({ time_s, all }: CurveData, i: number, height: number): number | null {
  const after = all[i] ?? null;
  const before = all[i - 1] ?? null;
  if (after === null || before === null) return null;
  if ((after - height) * (before - height) > 0) return null;
  const [t0, t1] = [time_s[i - 1] ?? 0, time_s[i] ?? 0];
  return after === before ? t1 : t0 + ((height - before) / (after - before)) * (t1 - t0);
}

/** When the curve last came into a band that it has not left since; null when it is outside. */
export function lastEntry({ time_s, all }: CurveData, low: number, high: number): number | null {
  let entry: number | null = null;
  for (let i = all.length - 1; i >= 0; i--) {
    const value = all[i] ?? null;
    if (value === null || value < low || value > high) break;
    entry = time_s[i] ?? null;
  }
  return entry;
}

interface LevelLine {
  readonly x: number;
  readonly y: number;
  readonly toX: number;
}

function straightPath({ x, y, toX }: LevelLine): string {
  return `M${px(x)} ${px(y)}H${px(toX)}`;
}

/** A thread about its own height; still at both ends. */
function waverPath({ x, y, toX }: LevelLine, middleY: number, rem: number, phase: number): string {
  const amplitude = Math.min(Math.abs(y - middleY) * 0.05, 0.28 * rem);
  if (amplitude < 0.3) return straightPath({ x, y, toX });
  return wave({ x, toX, wavelength: 9 * rem }, (share, angle) => {
    return y + amplitude * Math.sin(Math.PI * share) * Math.sin(angle + phase);
  });
}

/** A thread that crosses all others at the nodes and ends at its own height. */
function crossingPath(
  { x, y, toX }: LevelLine,
  middleY: number,
  rem: number,
  phase: number,
): string {
  return wave({ x, toX, wavelength: 14 * rem }, (share, angle) => {
    const end = Math.min((1 - share) * 6, 1);
    return middleY + (y - middleY) * (end * Math.cos(angle + phase) + 1 - end);
  });
}

/** Draws a wave as straight pieces short enough to look round. The angle is 0 at the right end. */
function wave(
  span: { x: number; toX: number; wavelength: number },
  heightAt: (share: number, angle: number) => number,
): string {
  const length = Math.max(span.toX - span.x, 1);
  const pieces = Math.max(Math.ceil((length / span.wavelength) * 16), 2);
  const points = Array.from({ length: pieces + 1 }, (_, i) => {
    const share = i / pieces;
    const angle = ((share - 1) * length * 2 * Math.PI) / span.wavelength;
    return `${px(span.x + share * length)} ${px(heightAt(share, angle))}`;
  });
  return `M${points.join('L')}`;
}

function px(value: number): string {
  return value.toFixed(1);
}

/** A cord cut off: a stub whose strands come apart and end short of the plot. */
export function frayedStrands(x: number, y: number, rem: number): readonly string[] {
  const stub = 1 * rem;
  return Array.from({ length: 9 }, (_, i) => {
    const lean = (i - 4) / 4;
    const packedY = y + lean * 0.2 * rem;
    const length = (2 + ((i * 5) % 4) * 0.9) * rem;
    const [endX, endY] = [x + stub + length, y + lean * 1.3 * rem];
    const bend = `${px(x + stub + length * 0.45)} ${px(packedY)}`;
    return `M${px(x)} ${px(packedY)}H${px(x + stub)}Q${bend} ${px(endX)} ${px(endY)}`;
  });
}
