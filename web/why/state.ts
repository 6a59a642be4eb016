/** What the parts of the page on why share. */
import { computed, effect, type ReadonlySignal } from '@preact/signals';
import { answerOf, type Answer } from '#core/experiment/answer/answer.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { Bench } from '../model/bench.ts';
import { loadSettings, type Settings } from '../view/settings.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { WHY_WORDS } from '../words/why-languages.ts';
import type { WhyWords } from '../words/why-words.ts';
import { askWhy, type Asking } from './asking.ts';

export interface WhyPageState {
  readonly bench: Bench;
  readonly settings: Settings;
  readonly words: ReadonlySignal<Catalogue>;
  readonly say: ReadonlySignal<WhyWords>;
  readonly asking: Asking;
  /** The load among the plan's factors, where it is varied alone; else null. */
  readonly load: ReadonlySignal<VariedLoad | null>;
}

export interface VariedLoad {
  readonly answer: Answer;
  readonly place: number;
}

export function createWhy(bench: Bench): WhyPageState {
  const settings = loadSettings();
  const say = computed(() => WHY_WORDS[settings.language.value]);
  effect(() => {
    document.title = `${say.value.title} · Stillmark`;
  });
  const asking = askWhy(bench, () => new Worker('why-worker.js', { type: 'module' }));
  const load = computed(() => {
    const place = placeOfLoad(bench.experiment.value.plan);
    if (place === null) return null;
    const answer = answerOf(bench.experiment.value, bench.trials.value, place);
    return answer === null || answer.load === null ? null : { answer, place };
  });
  return { bench, settings, words: settings.words, say, asking, load };
}

/** Only a series varies more than its first factor by itself. */
function placeOfLoad(plan: Plan | null): number | null {
  const place = plan?.factors.findIndex(({ kind }) => kind === 'load') ?? -1;
  return place === 0 || (place > 0 && plan?.design === 'series') ? place : null;
}
