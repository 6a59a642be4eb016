/** What the pages share that are only looked at: the room's and the phones'. */
import { computed, type ReadonlySignal } from '@preact/signals';
import type { AcrossBy } from '../draw/trial-marks.ts';
import type { Bench } from '../model/bench.ts';
import { createWatchState, type WatchState } from './watch-state.ts';

export interface Audience extends WatchState {
  readonly acrossBy: ReadonlySignal<AcrossBy>;
}

export function createAudience(bench: Bench): Audience {
  const acrossBy = computed<AcrossBy>(() =>
    bench.experiment.value.plan === null ? 'number' : 'levels',
  );
  return { ...createWatchState(bench), acrossBy };
}
