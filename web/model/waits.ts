/** How long it usually takes from the start of the fan to a logged trial, as this page saw it. */
import { effect, signal, type ReadonlySignal } from '@preact/signals';
import type { Bench } from './bench.ts';
import type { Stage } from './stage.ts';

export interface Waits {
  /** Stream time at which the rotor began to spin up; null when it was not seen. */
  readonly startedAt_s: number | null;
  readonly seen_s: readonly number[];
}

export const NO_WAITS: Waits = { startedAt_s: null, seen_s: [] };
const WAITS_KEPT = 15;
const ENOUGH = 2;

/** What is known once the stage is another one, at stream time `time_s`. */
export function noteStage(waits: Waits, stage: Stage, time_s: number): Waits {
  const { startedAt_s, seen_s } = waits;
  if (stage === 'spinning-up')
    return startedAt_s === null ? { startedAt_s: time_s, seen_s } : waits;
  if (stage === 'logged' && startedAt_s !== null) {
    return { startedAt_s: null, seen_s: [...seen_s, time_s - startedAt_s].slice(-WAITS_KEPT) };
  }
  const isUnderWay =
    stage === 'moving' || stage === 'settling' || stage === 'hold' || stage === 'still';
  return isUnderWay ? waits : { startedAt_s: null, seen_s };
}

/** The median wait, s; null before it was seen often enough to speak of "usually". */
export function usualOf({ seen_s }: Waits): number | null {
  const sorted = [...seen_s].sort((a, b) => a - b);
  return sorted.length < ENOUGH ? null : (sorted[Math.floor(sorted.length / 2)] ?? null);
}

export function watchWaits(bench: Bench): ReadonlySignal<number | null> {
  const usual_s = signal<number | null>(null);
  let waits = NO_WAITS;
  effect(() => {
    waits = noteStage(waits, bench.stage.value, bench.judgement.peek()?.time_s ?? 0);
    usual_s.value = usualOf(waits);
  });
  return usual_s;
}
