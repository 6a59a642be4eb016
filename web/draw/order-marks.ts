/** Marks by the numbers of their trials, all of them, however many there are. */
import type { TrialView } from '#core/live-messages.ts';
import { DASH, markAt, NO_LEVELS, type Across, type Ground, type Label } from './trial-marks.ts';

/** A dash takes at most this share of the room of a trial. */
const DASH_SHARE = 0.75;
/** Room of a number below the axis, rem. */
const NUMBER = 1.8;
const STEPS = [1, 2, 5];

export function acrossInOrder(trials: readonly TrialView[], ground: Ground): Across {
  const last = Math.max(1, ...trials.map(({ id }) => id));
  const pitch = (ground.right - ground.left) / last;
  const xOf = (id: number): number => ground.left + (id - 0.5) * pitch;
  return {
    marks: trials.flatMap((trial) => markAt(trial, xOf(trial.id), 0)),
    labels: numbersBelow(last, pitch / ground.rem).map((id): Label => {
      return { x: xOf(id), text: String(id), isNow: false };
    }),
    slotX: ground.right,
    dash: Math.min((DASH_SHARE * pitch) / ground.rem, DASH.width),
    ...NO_LEVELS,
  };
}

/** The first, and then every second, fifth, tenth, … as there is room for. */
function numbersBelow(last: number, pitch_rem: number): readonly number[] {
  const steps = [1, 10, 100].flatMap((ten) => STEPS.map((step) => step * ten));
  const every = steps.find((step) => step * pitch_rem >= NUMBER) ?? last;
  const numbers = Array.from({ length: Math.floor(last / every) }, (_, i) => (i + 1) * every);
  return every === 1 || numbers[0] === undefined || (numbers[0] - 1) * pitch_rem < NUMBER
    ? numbers
    : [1, ...numbers];
}
