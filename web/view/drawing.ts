/** When the curves are drawn: once an animation frame, and only when something has changed. */
import { effect, signal, type Signal } from '@preact/signals';
import type { Bench } from '../model/bench.ts';
import type { Stretch } from '../draw/pixel-columns.ts';
import { createStreamClock, noteArrival, streamNow_s } from '../draw/stream-clock.ts';
import { newestTime_s } from '../draw/window-buffer.ts';
import type { Settings } from './settings.ts';

/** What every drawing of one frame shares. */
export interface Frame {
  /** Stream time at the right edge. */
  readonly now_s: number;
  readonly stretches: readonly Stretch[];
  /** A longer pause between samples is drawn as a gap. */
  readonly gap_s: number;
}

export interface Drawing {
  readonly frame: Signal<Frame>;
  readonly paused: Signal<boolean>;
  /** Wall-clock time at which the curves were frozen. */
  readonly pausedAt: Signal<Date | null>;
}

/** The curves move on though nothing arrives: time passes. */
const SCROLL_EVERY_MS = 200;
const REDUCED_EVERY_MS = 1000;
const LEAST_GAP_S = 0.5;
const GAP_PERIODS = 5;

export function createDrawing(bench: Bench, settings: Settings): Drawing {
  const clock = createStreamClock();
  const frame = signal<Frame>({ now_s: 0, stretches: [], gap_s: LEAST_GAP_S });
  const paused = signal(false);
  const pausedAt = signal<Date | null>(null);
  let waiting = false;

  const draw = (): void => {
    waiting = false;
    if (paused.peek()) return;
    frame.value = frameOf(bench, streamNow_s(clock, performance.now() / 1000));
  };
  const schedule = (): void => {
    if (waiting || document.hidden) return;
    waiting = true;
    if (settings.reducedMotion.peek()) setTimeout(draw, REDUCED_EVERY_MS);
    else requestAnimationFrame(draw);
  };

  effect(() => {
    bench.batch.value;
    const newest_s = newestTime_s(bench.buffer);
    if (newest_s !== null) noteArrival(clock, newest_s, performance.now() / 1000);
    schedule();
  });
  effect(() => {
    bench.judgements.value;
    bench.stage.value;
    bench.open.value;
    schedule();
  });
  effect(() => {
    pausedAt.value = paused.value ? new Date() : null;
    schedule();
  });
  setInterval(schedule, SCROLL_EVERY_MS);
  return { frame, paused, pausedAt };
}

function frameOf(bench: Bench, now_s: number): Frame {
  const newest_s = newestTime_s(bench.buffer) ?? 0;
  const closed = bench.plateaus
    .peek()
    .map(({ start_s, end_s }) => ({ from_s: start_s, to_s: end_s }));
  const open = bench.open.peek();
  // Drawn as settled only as far as the detector has said so.
  const settledUntil_s = bench.settledUntil_s.peek() ?? -Infinity;
  const running = open === null ? [] : [{ from_s: open.start_s, to_s: settledUntil_s }];
  const rate_Hz = bench.status.peek()?.sampleRate_Hz ?? null;
  const gap_s = Math.max(LEAST_GAP_S, rate_Hz === null ? 0 : GAP_PERIODS / rate_Hz);
  return { now_s: Math.max(now_s, newest_s), stretches: [...closed, ...running], gap_s };
}
