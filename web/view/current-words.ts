/** What the page says now. */
import { stretchLength_s } from '../model/bench.ts';
import { countingTrials } from '../model/sentence.ts';
import { wordsOf, type Words } from '../model/words.ts';
import type { WatchState } from './watch-state.ts';

/**
 * The words of the stage, from all that the page knows.
 * @param mayAnswer what the tool asks can be answered on this page, above the words
 */
export function currentWords(page: WatchState, mayAnswer = false): Words {
  const { bench } = page;
  const words = page.words.value;
  const { question } = words;
  return wordsOf({
    words: mayAnswer ? { ...words, question: { ...question, onLaptop: question.above } } : words,
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
