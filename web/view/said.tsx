/** The sentence of the pages that are only looked at. */
import { sentenceNow } from '../model/sentence-now.ts';
import type { WatchState } from './watch-state.ts';

export function Said({ page }: { page: WatchState }) {
  const words = page.words.value;
  const { status, trials, experiment, trouble } = page.bench;
  if (status.value?.store.ok === false) {
    return <p class="said-now stopped">{words.page.storeStopped}</p>;
  }
  if (trouble.value !== null) return <p class="said-now stopped">{trouble.value}</p>;
  const { said } = sentenceNow({
    experiment: experiment.value,
    trials: trials.value,
    prefix: page.prefixes.value.power_W,
    words,
  });
  return <p class="said-now">{said}</p>;
}
