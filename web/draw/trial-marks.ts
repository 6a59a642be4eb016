/** Where the trials' marks stand across the answer plot; their height is the power axis' matter. */
import { expandedUncertainty } from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';
import { niceAxis, type Axis } from './axis.ts';

/**
 * levels: by what the plan had set; number: by trial number; wind: against wind speed; share: the
 * share of the wind's power, against wind speed.
 */
export type AcrossBy = 'levels' | 'number' | 'wind' | 'share';

/** How a trial's mark looks; each form also differs without colour. */
export type MarkForm = 'good' | 'struck' | 'cut' | 'notTurning';

export interface Mark {
  readonly trial: TrialView;
  readonly form: MarkForm;
  /** Middle of the dash. */
  readonly x: number;
  readonly power_W: number;
  /** Half of the 95 % interval of power; 0 when it is not known. */
  readonly halfPower_W: number;
  /** Half of the 95 % interval across, in pixels; 0 by trial number. */
  readonly halfAcross: number;
  /** Which of the settings that stand beside one another it belongs to; 0 where there is one. */
  readonly beside: number;
}

/** The mean of a level: a ring on its 95 % line. */
export interface MeanMark {
  readonly x: number;
  readonly power_W: number;
  readonly halfPower_W: number;
  /** The same of what all trials have in common, beside it; 0: nothing that is known of. */
  readonly halfCommon_W: number;
  /** One setting only: no ring, and the line is the least that can be said. */
  readonly isLeast: boolean;
  /** There is room to say so beside it. */
  readonly isNamed: boolean;
}

export interface Label {
  readonly x: number;
  readonly text: string;
  /** The one that is being worked on: printed inverted. */
  readonly isNow: boolean;
  /** Crowded out of the first row: how many rows below it. */
  readonly row?: number;
}

export interface Across {
  readonly marks: readonly Mark[];
  readonly labels: readonly Label[];
  /** Middle of the slot of the trial to come. */
  readonly slotX: number;
  /** Width of a dash, rem. */
  readonly dash: number;
  readonly means: readonly MeanMark[];
  /** A curve through the levels with its band. */
  readonly curve: readonly CurveMark[];
  /** From where to where the most lies. */
  readonly most: { readonly left: number; readonly right: number } | null;
}

/** A place of the fitted curve; power in W. */
export interface CurveMark {
  readonly x: number;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** The plot's ground, in pixels. */
export interface Ground {
  readonly left: number;
  readonly right: number;
  readonly rem: number;
  /** Rows that names may take below the plot: one, unless there is room for more. */
  readonly nameRows?: number;
}

/** Without levels there is nothing to take the mean of. */
export const NO_LEVELS = { means: [], curve: [], most: null } as const;

/** A trial's dash and its rim of paper, rem. A cord of all threads is as thick as it is high. */
export const DASH = { width: 1.5, height: 0.45, rim: 0.1 } as const;
/** Against wind the dashes are short, for trials may lie close together. */
const SHORT_DASH_WIDTH = 0.75;
/** Few trials are spread as if there were this many. */
const FEWEST_SLOTS = 6;

export function markFormOf(trial: TrialView): MarkForm {
  if (trial.struck) return 'struck';
  if (!trial.recorded) return 'cut';
  return trial.rotorStill ? 'notTurning' : 'good';
}

/**
 * Trials by number, the newest as many as there is room for, then the slot of the next.
 * @param currentId the trial that is logged and still open, else the number that comes next
 */
export function acrossByNumber(
  trials: readonly TrialView[],
  currentId: number,
  ground: Ground,
): Across {
  const width = ground.right - ground.left;
  const room = Math.max(Math.floor(width / (leastPitch_rem(currentId) * ground.rem)), 2);
  const first = Math.max(currentId - room + 1, 1);
  const count = Math.min(Math.max(currentId - first + 1, FEWEST_SLOTS), room);
  const pitch = width / count;
  const xOf = (id: number): number => ground.left + (id - first + 0.5) * pitch;
  const shown = trials.filter(({ id }) => id >= first && id <= currentId);
  const labels = Array.from({ length: currentId - first + 1 }, (_, i) => first + i);
  return {
    marks: shown.flatMap((trial) => markAt(trial, xOf(trial.id), 0)),
    labels: labels.map((id) => ({ x: xOf(id), text: String(id), isNow: id === currentId })),
    slotX: xOf(currentId),
    dash: DASH.width,
    ...NO_LEVELS,
  };
}

/** Room for a dash, and for the largest number below it. */
function leastPitch_rem(largestId: number): number {
  return Math.max(DASH.width + 0.25, 0.7 + 0.62 * String(largestId).length);
}

/** The mean of what was measured at about one wind. */
export interface WindMean {
  readonly wind_mps: number;
  readonly power_W: number;
  /** Half of the 95 % interval of what its trials scatter; null: not known. */
  readonly halfPower_W: number | null;
  /** Half of the 95 % interval of what they have in common. */
  readonly halfCommon_W: number;
}

/** Trials at their wind speed. Those without a wind reading are not on this plot. */
export function acrossByWind(
  trials: readonly TrialView[],
  windNow_mps: number | null,
  ground: Ground,
  means: readonly WindMean[] = [],
): Across {
  const winds = trials.map(({ windSpeed_mps }) => windSpeed_mps?.value ?? 0);
  const axis = niceAxis(0, Math.max(...winds, windNow_mps ?? 0) * 1.05, 4);
  const inset = ground.rem;
  const xOf = (wind: number): number => {
    const share = (wind - axis.low) / (axis.high - axis.low);
    return ground.left + inset + share * (ground.right - ground.left - 2 * inset);
  };
  const marks = trials.flatMap((trial) => {
    if (trial.windSpeed_mps === null) return [];
    const { value } = trial.windSpeed_mps;
    const half = expandedUncertainty(trial.windSpeed_mps) ?? 0;
    return markAt(trial, xOf(value), xOf(half) - xOf(0));
  });
  return {
    marks,
    labels: windLabels(axis, xOf),
    slotX: xOf(windNow_mps ?? 0),
    dash: SHORT_DASH_WIDTH,
    ...NO_LEVELS,
    means: means.map(({ wind_mps, power_W, halfPower_W, halfCommon_W }): MeanMark => {
      const known = { x: xOf(wind_mps), power_W, halfPower_W: halfPower_W ?? 0, halfCommon_W };
      return { ...known, isLeast: false, isNamed: false };
    }),
  };
}

function windLabels(axis: Axis, xOf: (wind: number) => number): readonly Label[] {
  return axis.ticks.map((tick, i) => ({
    x: xOf(tick),
    text: `${tick}${i === axis.ticks.length - 1 ? '\u202fm/s' : ''}`,
    isNow: false,
  }));
}

/** A trial's mark; none where it has no power. */
export function markAt(
  trial: TrialView,
  x: number,
  halfAcross: number,
  beside = 0,
): readonly Mark[] {
  if (trial.power_W === null) return [];
  const { value } = trial.power_W;
  const halfPower_W = expandedUncertainty(trial.power_W) ?? 0;
  return [{ trial, form: markFormOf(trial), x, power_W: value, halfPower_W, halfAcross, beside }];
}
