/** What the page says now. */
import { stretchLength_s } from '../model/bench.ts';
import { countingTrials } from '../model/sentence.ts';
import { wordsOf, type Words } from '../model/words.ts';
import type { WatchState } from './watch-state.ts';

/** The words of the stage, from all that the page knows. */
export function currentWords(page: WatchState): Words {
  const { bench } = page;
  return wordsOf({
    words: page.words.value,
    experiment: bench.experiment.value,
    stage: bench.stage.value,
    status: bench.status.value,
    judgement: bench.judgement.value,
    newest: bench.loggedTrial.value ?? countingTrials(bench.trials.value).at(-1) ?? null,
    trials: bench.trials.value,
    stretch_s: stretchLength_s(bench),
    usual_s: page.usualWait_s.value,
    prefixes: page.prefixes.value,
    quiet_s: bench.quiet_s.value,
  });
}
