/** A sentence of the program, in the page's language where there are words for it. */
import type { AnnouncedBoard, Status } from '#core/live-messages.ts';
import type { PortState } from '#core/link.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { PROGRAM_WORDS } from '../words/program-languages.ts';
import { REFUSAL_CODES } from '../words/network-words.ts';
import type { ProgramWords, Say } from '../words/program-words.ts';
import { quantityIn } from '../words/board-words.ts';

/** What the program told. */
export interface Told {
  /** null: said by the page itself, in its own language. */
  readonly code: string | null;
  /** In English, as the program says it. */
  readonly message: string;
  /** Names and numbers of the message. */
  readonly about?: readonly string[] | undefined;
}

/** Sentences that have the same names and numbers, by code. */
type Table = 'notice' | 'refusal' | 'store' | 'port' | 'zero';

/** For a page: `isEnglish` is for its `lang`, where the page speaks another language. */
export interface Sentence {
  readonly text: string;
  readonly isEnglish: boolean;
}

function programWords({ language }: Catalogue): ProgramWords | null {
  return language === 'en' ? null : PROGRAM_WORDS[language];
}

export function sentenceOf(told: Told, table: Table, words: Catalogue): Sentence {
  const { code, message, about = [] } = told;
  if (code === null) return { text: message, isEnglish: false };
  const known = table === 'refusal' ? REFUSAL_CODES.find((one) => one === code) : undefined;
  if (known !== undefined) return { text: words.network.refused[known], isEnglish: false };
  const says: Readonly<Record<string, Say>> = programWords(words)?.[table] ?? {};
  const say = Object.hasOwn(says, code) ? says[code] : undefined;
  // A sentence that wants more than was told can't be said.
  if (say === undefined || say.length > about.length) return { text: message, isEnglish: true };
  return { text: say(...about.map((item) => inLanguage(item, words))), isEnglish: false };
}

/** An amount, "4.1 mV", with the language's decimal sign; names stay as they are. */
function inLanguage(item: string, { number }: Catalogue): string {
  return /^[-\u2212]?\d+\.\d+( [^ ]+)?$/.test(item) ? number(item) : item;
}

/** What more there is to say of the port than its phase; null where there is nothing. */
export function portSentence(port: PortState, words: Catalogue): string | null {
  if (port.phase === 'refused') return sentenceOf(port, 'port', words).text;
  if (port.phase === 'unplugged' && port.message !== undefined) {
    return programWords(words)?.goneAtOnce ?? port.message;
  }
  if (port.phase !== 'ended' || port.message === undefined) return null;
  return programWords(words)?.endedEarly(port.message) ?? port.message;
}

/** What hinders saving; null where the program does not say. */
export function storeSentence({ store }: Status, words: Catalogue): Sentence | null {
  if (store.message === null) return null;
  return sentenceOf({ ...store, code: store.code ?? '', message: store.message }, 'store', words);
}

/** What came of the newest zero; null while that is open. */
export function zeroSentence(
  { zeroing }: AnnouncedBoard,
  words: Catalogue,
): Sentence | null {
  if (zeroing === null || zeroing.message === null) return null;
  const { outcome = '', message, about: [quantity = '', ...amounts] = [] } = zeroing;
  const about = [quantityIn(words.board.quantity, quantity), ...amounts];
  return sentenceOf({ code: outcome, message, about }, 'zero', words);
}
