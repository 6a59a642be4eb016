import type { Language } from '../words/catalogue.ts';

/** What is asked of a voice; the browser's own fit it. */
export interface Voice {
  readonly name: string;
  /** "de-DE", on some systems "de_DE". */
  readonly lang: string;
  readonly localService: boolean;
  readonly default: boolean;
}

export interface Choice<V> {
  readonly voice: V;
  /** It is a voice of the page's language. */
  readonly matches: boolean;
}

/**
 * A voice of the language, one of this device before one over the network, the device's own
 * default before others; with none of the language the default; null where there is no voice.
 */
export function chooseVoice<V extends Voice>(
  voices: readonly V[],
  language: Language,
): Choice<V> | null {
  const worth = (voice: Voice): number => 2 * Number(voice.localService) + Number(voice.default);
  const ranked = [...voices].sort((a, b) => worth(b) - worth(a));
  const own = ranked.find(({ lang }) => lang.toLowerCase().split(/[-_]/)[0] === language);
  if (own !== undefined) return { voice: own, matches: true };
  const other = ranked.find((voice) => voice.default) ?? ranked[0];
  return other === undefined ? null : { voice: other, matches: false };
}
