/** In which language the wiring page speaks; all that is on it asks here. */
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Catalogue, Language } from '../words/catalogue.ts';
import { CATALOGUES } from '../words/languages.ts';
import { WIRING_WORDS } from '../words/wiring-languages.ts';
import type { WiringWords } from '../words/wiring-words.ts';
import { amount, ohms, percent } from './amounts.ts';

/** The words, and numbers as the language writes them. */
export interface Spoken {
  readonly words: Catalogue;
  readonly say: WiringWords;
  readonly amount: typeof amount;
  readonly ohms: typeof ohms;
  readonly percent: typeof percent;
}

export function spokenIn(language: Language): Spoken {
  const words = CATALOGUES[language];
  const { number } = words;
  return {
    words,
    say: WIRING_WORDS[language],
    amount: (value, unit, digits) => number(amount(value, unit, digits)),
    ohms: (resistance_Ohm) => number(ohms(resistance_Ohm)),
    percent: (fraction) => number(percent(fraction)),
  };
}

export const Speech = createContext(spokenIn('en'));

export function useSpoken(): Spoken {
  return useContext(Speech);
}
