/** What a person has set on this device: remembered where the browser allows it. */
import { computed, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import { readTaught, type TaughtKeys } from '../model/taught-keys.ts';
import type { Catalogue, Language } from '../words/catalogue.ts';
import { keep, recall } from './kept.ts';
import { CATALOGUES, isLanguage, languageFor } from '../words/languages.ts';

export interface Settings {
  /** null: as the device prefers. */
  readonly theme: Signal<'light' | 'dark' | null>;
  readonly isDark: ReadonlySignal<boolean>;
  /** What the page speaks: as chosen here, else the first of the device's languages it knows. */
  readonly language: Signal<Language>;
  readonly words: ReadonlySignal<Catalogue>;
  readonly soundOn: Signal<boolean>;
  /** Whether the operator's page speaks. */
  readonly voiceOn: Signal<boolean>;
  /** Whether the room's page does, on this device. */
  readonly roomVoiceOn: Signal<boolean>;
  readonly lettersOn: Signal<boolean>;
  readonly taught: Signal<TaughtKeys>;
  readonly reducedMotion: ReadonlySignal<boolean>;
}

export function loadSettings(): Settings {
  const theme = signal(themeOf(recall('theme')));
  const prefersDark = mediaSignal('(prefers-color-scheme: dark)');
  const isDark = computed(() =>
    theme.value === null ? prefersDark.value : theme.value === 'dark',
  );
  const language = signal(languageOf(recall('language')));
  const words = computed(() => CATALOGUES[language.value]);
  const soundOn = signal(recall('sound') !== 'off');
  const voiceOn = keptSwitch('voice');
  const roomVoiceOn = keptSwitch('room-voice');
  const lettersOn = signal(recall('letters') !== 'off');
  const taught = signal(readTaught(recall('taught-keys')));
  theme.subscribe((value) => keep('theme', value));
  language.subscribe((tag) => {
    keep('language', tag === deviceLanguage() ? null : tag);
    document.documentElement.lang = tag;
  });
  // The room's page has no controls: it follows what is chosen on another page of this device.
  addEventListener('storage', () => (language.value = languageOf(recall('language'))));
  soundOn.subscribe((on) => keep('sound', on ? null : 'off'));
  lettersOn.subscribe((on) => keep('letters', on ? null : 'off'));
  taught.subscribe((keys) => {
    keep('taught-keys', Object.keys(keys).length === 0 ? null : JSON.stringify(keys));
  });
  isDark.subscribe((dark) => {
    document.documentElement.dataset['theme'] = dark ? 'dark' : 'light';
  });
  const reducedMotion = mediaSignal('(prefers-reduced-motion: reduce)');
  return {
    theme,
    isDark,
    language,
    words,
    soundOn,
    voiceOn,
    roomVoiceOn,
    lettersOn,
    taught,
    reducedMotion,
  };
}

/** Off until somebody switches it on. */
function keptSwitch(key: string): Signal<boolean> {
  const isOn = signal(recall(key) === 'on');
  isOn.subscribe((on) => keep(key, on ? 'on' : null));
  return isOn;
}

function themeOf(kept: string | null): 'light' | 'dark' | null {
  return kept === 'light' || kept === 'dark' ? kept : null;
}

function languageOf(kept: string | null): Language {
  return isLanguage(kept) ? kept : deviceLanguage();
}

function deviceLanguage(): Language {
  return languageFor(navigator.languages);
}

function mediaSignal(query: string): ReadonlySignal<boolean> {
  const media = matchMedia(query);
  const matches = signal(media.matches);
  media.addEventListener('change', () => (matches.value = media.matches));
  return matches;
}
