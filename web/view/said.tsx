/** The sentence of the pages that are only looked at. */
import { sentenceNow } from '../model/sentence-now.ts';
import { sentenceOf } from '../model/told.ts';
import { useFit } from './use-fit.ts';
import type { WatchState } from './watch-state.ts';

interface SaidProps {
  readonly page: WatchState;
  /** Said instead, for a while. */
  readonly note?: string | null;
}

export function Said({ page, note = null }: SaidProps) {
  const said = note === null ? saidNow(page) : { text: note, isTrouble: false };
  const host = useFit<HTMLParagraphElement>();
  return (
    <p class={said.isTrouble ? 'said-now stopped' : 'said-now'} ref={host}>
      {said.text}
    </p>
  );
}

function saidNow(page: WatchState): { text: string; isTrouble: boolean } {
  const { bench, answer, words, prefixes } = page;
  const { status, stage, trials, experiment, trouble } = bench;
  if (status.value?.store.ok === false) {
    return { text: words.value.page.storeStopped, isTrouble: true };
  }
  if (trouble.value !== null) {
    return { text: sentenceOf(trouble.value, 'refusal', words.value).text, isTrouble: true };
  }
  const { said } = sentenceNow({
    experiment: experiment.value,
    answer: answer.value,
    trials: trials.value,
    prefix: prefixes.value.power_W,
    stage: stage.value,
    words: words.value,
  });
  return { text: said, isTrouble: false };
}
