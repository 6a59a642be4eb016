/**
 * Says aloud what the page shows in writing. Browsers speak only once a person has touched the
 * page; until then, and where a voice is missing, `note` says so in words.
 */
import { computed, effect, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import { countingTrials } from '../model/sentence.ts';
import { airHeard } from '../model/stage.ts';
import type { WatchState } from '../view/watch-state.ts';
import { chooseVoice } from './choose-voice.ts';
import { utteranceOf } from './utterance.ts';

/** What flickers is not said. */
const SAY_AFTER_MS = 400;
/** How long a word about the voice itself stays. */
const NOTE_MS = 8000;

export interface Speaker {
  /** To be shown for a while; null: nothing. */
  readonly note: ReadonlySignal<string | null>;
  /** Switches the voice on or off, as part of a click or a key. */
  toggle(): void;
}

export function createSpeaker(page: WatchState, isOn: Signal<boolean>): Speaker {
  const touched = signal(false);
  const passing = signal<string | null>(null);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let noteTimer: ReturnType<typeof setTimeout> | undefined;
  const { settings, words } = page;
  const isHeard = computed(() => isOn.value && settings.soundOn.value);
  const utterance = computed(() => currentUtterance(page));

  const tell = (note: string): void => {
    passing.value = note;
    clearTimeout(noteTimer);
    noteTimer = setTimeout(() => (passing.value = null), NOTE_MS);
  };
  const say = (text: string): void => {
    if (!('speechSynthesis' in globalThis)) return tell(words.value.voice.noVoice);
    const choice = chooseVoice(speechSynthesis.getVoices(), words.value.language);
    // Nothing piles up: what is new takes the place of what is old.
    speechSynthesis.cancel();
    if (choice === null) return tell(words.value.voice.noVoice);
    const spoken = new SpeechSynthesisUtterance(text);
    spoken.voice = choice.voice;
    spoken.lang = choice.matches ? words.value.language : choice.voice.lang;
    if (!choice.matches) tell(words.value.voice.otherVoice(choice.voice.name));
    speechSynthesis.speak(spoken);
  };
  const touch = (): void => {
    touched.value = true;
  };
  addEventListener('pointerdown', touch);
  addEventListener('keydown', touch);
  effect(() => {
    const text = utterance.value;
    clearTimeout(timer);
    if (text === null || !isHeard.value || !touched.value) return;
    timer = setTimeout(() => say(text), SAY_AFTER_MS);
  });
  effect(() => {
    if (!isHeard.value && 'speechSynthesis' in globalThis) speechSynthesis.cancel();
  });
  return {
    note: computed(() =>
      isHeard.value && !touched.value ? words.value.voice.touchToHear : passing.value,
    ),
    toggle() {
      touched.value = true;
      isOn.value = !isOn.value;
      if (!isOn.value) return tell(words.value.voice.off);
      settings.soundOn.value = true;
      tell(words.value.voice.on);
      say(words.value.voice.on);
    },
  };
}

function currentUtterance({ bench, words, prefixes }: WatchState): string | null {
  return utteranceOf({
    words: words.value,
    stage: bench.stage.value,
    experiment: bench.experiment.value,
    trial: bench.loggedTrial.value,
    trials: bench.trials.value,
    air: airHeard(bench.judgement.value, countingTrials(bench.trials.value).at(-1) ?? null),
    prefix: prefixes.value.power_W,
    isSaving: bench.status.value?.store.ok !== false,
  });
}
