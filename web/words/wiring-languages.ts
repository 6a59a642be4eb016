/** The wiring page's words by language; no other page loads them. */
import type { Language } from './catalogue.ts';
import type { WiringWords } from './wiring-words.ts';
import { deWiring } from './wiring/de.ts';
import { enWiring } from './wiring/en.ts';
import { esWiring } from './wiring/es.ts';
import { frWiring } from './wiring/fr.ts';

export const WIRING_WORDS: Readonly<Record<Language, WiringWords>> = {
  en: enWiring,
  de: deWiring,
  es: esWiring,
  fr: frWiring,
};
