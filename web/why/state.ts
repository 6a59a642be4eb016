/** What the parts of the page on why share. */
import { computed, effect, type ReadonlySignal } from '@preact/signals';
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
}

export function createWhy(bench: Bench): WhyPageState {
  const settings = loadSettings();
  const say = computed(() => WHY_WORDS[settings.language.value]);
  effect(() => {
    document.title = `${say.value.title} · Stillmark`;
  });
  const asking = askWhy(bench, () => new Worker('why-worker.js', { type: 'module' }));
  return { bench, settings, words: settings.words, say, asking };
}
