/** The answer plot by levels: where each trial, each mean and the slot stand across. */
import { expandedUncertainty } from '#core/metrology/format.ts';
import type { CurvePoint } from '#core/experiment/comparison/curve.ts';
import type { Level } from '#core/experiment/plan/plan.ts';
import type { TrialView } from '#core/live-messages.ts';
import type { Seat, SeatedTrial } from '#core/experiment/answer/seats.ts';
import type { SeatMean } from '#core/experiment/answer/settings.ts';
import { spreadLabels } from './spread-labels.ts';
import { DASH, markAt, type Across, type Ground, type Label, type MeanMark } from './trial-marks.ts';

export interface LevelPlot {
  /** Of the factor that the plot stands by. */
  readonly levels: readonly Level[];
  /** How many settings stand beside one another at each level. */
  readonly besideCount: number;
  readonly seated: readonly SeatedTrial<TrialView>[];
  readonly means: readonly SeatMean[];
  /** Of the run at work; null when what is read belongs to none. */
  readonly current: Seat | null;
  /** All is done: nothing is at work, and no place is kept for it. */
  readonly isFinished: boolean;
  /** Fitted between numeric levels; null: none. */
  readonly curve: readonly CurvePoint[] | null;
  /** Where the most lies, with its limits, in the factor's unit; null: not known. */
  readonly most: { readonly low: number; readonly high: number } | null;
  /** Name of the place for trials that no run has. */
  readonly noRun: string;
  /** Its name where there are some that had a level which the plan has no longer. */
  readonly notInPlan: string;
  /** Its short name, where there is little room. */
  readonly others: string;
}

/** From a dash's right end to its ring, and what the ring takes, paper around it included, rem. */
const RING = { gap: 0.2, width: 0.85 } as const;
const LEAST_DASH = 0.5;
/** Kept at least for trials that have no level, rem. */
const STRAY_ROOM = 4;
/** A name that takes more of the width than this leaves too little to the levels. */
const MOST_STRAY_SHARE = 0.3;
/** Room of a letter of a name, and between names, rem. */
const LETTER = 0.56;
const NAME_GAP = 0.6;
/** A name at the rim that has moved by no more than this is still where it belongs, rem. */
const HARDLY = 0.75;

export function acrossByLevels(plot: LevelPlot, ground: Ground): Across {
  const { levels, besideCount, seated, current } = plot;
  const { rem } = ground;
  const name = strayName(plot);
  const isTight = widthOf(name ?? '') * rem > MOST_STRAY_SHARE * (ground.right - ground.left);
  const strays = name !== null && isTight ? plot.others : name;
  const strayRoom = Math.max(STRAY_ROOM, widthOf(strays ?? '')) * rem;
  const right = ground.right - (strays === null ? 0 : strayRoom);
  const pitch = leastPitch(levels, right - ground.left);
  const dash = dashWidth(pitch / rem, besideCount);
  const step = (dash + RING.gap + RING.width) * rem;
  const span = besideCount * step;
  // The dash of a single setting stands on the level, its ring to the right of it.
  const [before, after] = [(dash / 2) * rem, span - (dash / 2) * rem];
  const middles = placesOf(levels, {
    left: ground.left + before + 0.2 * rem,
    right: right - after - 0.2 * rem,
  });
  const strayX = ground.right - strayRoom / 2;
  const xOf = (seat: Seat | null): number =>
    seat === null ? strayX : (middles[seat.level] ?? strayX) + seat.beside * step;
  const xAt = (value: number): number => placeBetween(levels, middles, value);
  return {
    marks: seated.flatMap(({ trial, seat }) => markAt(trial, xOf(seat), 0, seat?.beside ?? 0)),
    labels: [
      ...namesOf(plot, { middles, shift: ((besideCount - 1) * step) / 2, right }, ground),
      ...(strays === null ? [] : [{ x: strayX, text: strays, isNow: isStrayNow(plot) }]),
    ],
    slotX: xOf(current),
    dash,
    curve: (plot.curve ?? []).map((point) => ({ ...point, x: xAt(point.at) })),
    most: plot.most === null ? null : { left: xAt(plot.most.low), right: xAt(plot.most.high) },
    means: plot.means.flatMap((mean) =>
      meanMark(mean, besideCount === 1, xOf(mean) + (dash / 2 + RING.gap + RING.width / 2) * rem),
    ),
  };
}

/** What the place for trials without a level is called; null: there are none. */
function strayName(plot: LevelPlot): string | null {
  const strays = plot.seated.filter(({ seat }) => seat === null);
  if (strays.some(({ trial }) => trial.runId !== null)) return plot.notInPlan;
  return strays.length > 0 || isStrayNow(plot) ? plot.noRun : null;
}

function isStrayNow({ current, isFinished }: LevelPlot): boolean {
  return current === null && !isFinished;
}

/** Numbers stand at their true distance, names evenly. */
function placesOf(
  levels: readonly Level[],
  ends: { readonly left: number; readonly right: number },
): readonly number[] {
  const width = Math.max(ends.right - ends.left, 0);
  return sharesOf(levels).map((share) => ends.left + share * width);
}

/** Where a number between the levels stands. */
function placeBetween(
  levels: readonly Level[],
  middles: readonly number[],
  value: number,
): number {
  const known = levels.flatMap((level, i) => {
    return level.value === null ? [] : [{ value: level.value, x: middles[i] ?? 0 }];
  });
  const [low, high] = [Math.min, Math.max].map((end) => {
    const outermost = end(...known.map((one) => one.value));
    return known.find((one) => one.value === outermost);
  });
  if (low === undefined || high === undefined || low.value === high.value) return middles[0] ?? 0;
  return low.x + ((value - low.value) / (high.value - low.value)) * (high.x - low.x);
}

function sharesOf(levels: readonly Level[]): readonly number[] {
  const values = levels.flatMap(({ value }) => (value === null ? [] : [value]));
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (values.length < levels.length || !(high > low)) {
    return levels.map((_, i) => (levels.length === 1 ? 0.5 : i / (levels.length - 1)));
  }
  return values.map((value) => (value - low) / (high - low));
}

function leastPitch(levels: readonly Level[], width: number): number {
  const shares = [...sharesOf(levels)].sort((a, b) => a - b);
  const gaps = shares.slice(1).map((share, i) => share - (shares[i] ?? 0));
  return Math.min(...gaps.filter((gap) => gap > 0), 1) * width;
}

/** As wide as a dash always is, unless levels lie too close together for it. */
function dashWidth(pitch_rem: number, besideCount: number): number {
  const room = pitch_rem / besideCount - RING.gap - RING.width;
  return Math.max(Math.min(room, DASH.width), LEAST_DASH);
}

/** Where two settings or more were tried a ring on its line; for one the line of its trial. */
function meanMark(
  { power_W, newest }: SeatMean,
  isNamed: boolean,
  x: number,
): readonly MeanMark[] {
  if (power_W.halfWidth !== null) {
    const { mean, halfWidth } = power_W;
    const line = { power_W: mean, halfPower_W: halfWidth, halfCommon_W: 0 };
    return [{ x, ...line, isLeast: false, isNamed }];
  }
  const half = newest.power_W === null ? null : expandedUncertainty(newest.power_W);
  if (newest.power_W === null || half === null) return [];
  const line = { power_W: newest.power_W.value, halfPower_W: half, halfCommon_W: 0 };
  return [{ x, ...line, isLeast: true, isNamed }];
}

interface Middles {
  readonly middles: readonly number[];
  /** From a level's first dash to the middle of all that stand at it. */
  readonly shift: number;
  readonly right: number;
}

/** Names below the axis, as many as there is room for: what the first row leaves out is next. */
function namesOf(plot: LevelPlot, at: Middles, ground: Ground): readonly Label[] {
  const { rem, nameRows = 1 } = ground;
  const room = { left: ground.left, right: at.right, rem };
  const texts = shortenedToFit(
    plot.levels.map(({ label }) => label),
    (nameRows * (room.right - room.left)) / rem,
  );
  const all = texts
    .map((text, i) => ({
      text,
      isNow: i === plot.current?.level,
      x: (at.middles[i] ?? 0) + at.shift,
    }))
    .sort((a, b) => a.x - b.x);
  const names: Label[] = [];
  let left: readonly Label[] = all;
  for (let row = 0; row < nameRows; row++) {
    const chosen = asManyAsFit(left, all, room);
    names.push(...placedIn(chosen, room).map((one) => (row === 0 ? one : { ...one, row })));
    left = left.filter((one) => !chosen.includes(one));
  }
  return names;
}

/** Room that a name takes, rem. */
function widthOf(text: string): number {
  return lettersIn(text) * LETTER + NAME_GAP;
}

/** How many letters a name is as wide as: its three dots as two. */
export function lettersIn(text: string): number {
  return text.length + (text.endsWith('…') ? 1 : 0);
}

interface Room {
  readonly left: number;
  readonly right: number;
  readonly rem: number;
}

/**
 * The one at work, both ends, then from left to right every one for which there is still room where
 * it belongs: no name stands below another level's marks.
 */
function asManyAsFit(
  labels: readonly Label[],
  all: readonly Label[],
  room: Room,
): readonly Label[] {
  const rank = (label: Label): number => {
    if (label.isNow) return 0;
    return label === labels[0] || label === labels.at(-1) ? 1 : 2;
  };
  let chosen: readonly Label[] = [];
  for (const label of [...labels].sort((a, b) => rank(a) - rank(b))) {
    const more = labels.filter((one) => one === label || chosen.includes(one));
    const width = more.reduce((sum, { text }) => sum + widthOf(text) * room.rem, 0);
    const fit = placedIn(more, room).every(({ x }, n) =>
      isAtOwn(all, more[n]!.x, { x, rem: room.rem }),
    );
    if (chosen.length === 0 || (fit && width <= room.right - room.left)) chosen = more;
  }
  return chosen;
}

/** Whether a name at x is nearer to its own level than to any other, or hardly moved. */
function isAtOwn(
  labels: readonly Label[],
  own: number,
  { x, rem }: { x: number; rem: number },
): boolean {
  const moved = Math.abs(x - own);
  return moved <= HARDLY * rem || labels.every((other) => Math.abs(other.x - x) >= moved);
}

function placedIn(labels: readonly Label[], { left, right, rem }: Room): readonly Label[] {
  const places = labels.map(({ x }) => x);
  const widths = labels.map(({ text }) => widthOf(text) * rem);
  const middles = spreadLabels(places, widths, { left, right });
  return labels.map((label, n) => ({ ...label, x: middles[n] ?? label.x }));
}

const FEWEST_LETTERS = 4;

/** With as many letters each as there is room for: what is short leaves its room to the rest. */
function shortenedToFit(labels: readonly string[], room_rem: number): readonly string[] {
  for (let letters = Math.max(...labels.map(({ length }) => length)); ; letters--) {
    const texts = labels.map((label) => shortened(label, letters));
    const width = texts.reduce((sum, text) => sum + widthOf(text), 0);
    if (width <= room_rem || letters <= FEWEST_LETTERS) return texts;
  }
}

/** Only what begins as a name: a number that lacks a digit would be another number. */
function shortened(label: string, letters: number): string {
  if (label.length <= letters || !/^\p{L}/u.test(label)) return label;
  return `${label.slice(0, letters - 1).replace(/[\s,]+$/, '')}…`;
}
