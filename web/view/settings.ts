/** What a person has set on this device: remembered where the browser allows it. */
import { computed, signal, type ReadonlySignal, type Signal } from '@preact/signals';

export interface Settings {
  /** null: as the device prefers. */
  readonly theme: Signal<'light' | 'dark' | null>;
  readonly isDark: ReadonlySignal<boolean>;
  readonly soundOn: Signal<boolean>;
  readonly lettersOn: Signal<boolean>;
  readonly reducedMotion: ReadonlySignal<boolean>;
}

export function loadSettings(): Settings {
  const theme = signal(themeOf(recall('theme')));
  const prefersDark = mediaSignal('(prefers-color-scheme: dark)');
  const isDark = computed(() =>
    theme.value === null ? prefersDark.value : theme.value === 'dark',
  );
  const soundOn = signal(recall('sound') !== 'off');
  const lettersOn = signal(recall('letters') !== 'off');
  theme.subscribe((value) => keep('theme', value));
  soundOn.subscribe((on) => keep('sound', on ? null : 'off'));
  lettersOn.subscribe((on) => keep('letters', on ? null : 'off'));
  isDark.subscribe((dark) => {
    document.documentElement.dataset['theme'] = dark ? 'dark' : 'light';
  });
  const reducedMotion = mediaSignal('(prefers-reduced-motion: reduce)');
  return { theme, isDark, soundOn, lettersOn, reducedMotion };
}

function themeOf(kept: string | null): 'light' | 'dark' | null {
  return kept === 'light' || kept === 'dark' ? kept : null;
}

function mediaSignal(query: string): ReadonlySignal<boolean> {
  const media = matchMedia(query);
  const matches = signal(media.matches);
  media.addEventListener('change', () => (matches.value = media.matches));
  return matches;
}

/** Private windows may refuse storage; the page works without. */
function recall(key: string): string | null {
  try {
    return localStorage.getItem(`stillmark.${key}`);
  } catch {
    return null;
  }
}

function keep(key: string, value: string | null): void {
  try {
    if (value === null) localStorage.removeItem(`stillmark.${key}`);
    else localStorage.setItem(`stillmark.${key}`, value);
  } catch {
    // Nothing to do: the setting lasts as long as the page.
  }
}
