/** What the program says, by language; in English it speaks for itself. */
import type { Language } from './catalogue.ts';
import type { ProgramWords } from './program-words.ts';
import { deProgram } from './program/de.ts';
import { esProgram } from './program/es.ts';
import { frProgram } from './program/fr.ts';

export const PROGRAM_WORDS: Readonly<Record<Exclude<Language, 'en'>, ProgramWords>> = {
  de: deProgram,
  es: esProgram,
  fr: frProgram,
};
