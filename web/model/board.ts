/** The board in words: what it announced, as a person reads it. */
import { decimalAt, firstPlace, scaled, UNIT_SPACE } from '#core/metrology/format.ts';
import type { AnnouncedBoard, Status } from '#core/live-messages.ts';
import { quantityNamed, type QuantityName } from '#protocol/quantity.ts';
import type { BoardWords } from '../words/board-words.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { unitOf, type Prefixes, type Shown } from './quantities.ts';
import type { Judgement } from './stage.ts';
import { sentenceOf } from './told.ts';

export type AnnouncedChannel = AnnouncedBoard['channels'][number];

/** Announced numbers have as many digits as the sketch gave them; more than six tell nobody more. */
const DIGITS = 6;

export function numberWords(value: number, { number }: Catalogue): string {
  return number(String(Number(value.toPrecision(DIGITS))).replace('-', '\u2212'));
}

export function withUnit(value: number, unit: string, words: Catalogue): string {
  return `${numberWords(value, words)}${UNIT_SPACE}${unit}`;
}

/** "1.0025, u 0.004": a standard uncertainty is given as such, not expanded. */
export function withUncertainty(
  value: number,
  uncertainty: number | null,
  inWords: (value: number) => string,
  { notKnown }: BoardWords,
): string {
  const u = uncertainty === null ? notKnown : inWords(uncertainty);
  return `${inWords(value)}, u${UNIT_SPACE}${u}`;
}

/** "0 where unknown", says the grammar of the parts of an identity. */
export function partOfIdentity(part: string | undefined, { notKnown }: BoardWords): string {
  return part === undefined || part === '0' ? notKnown : part;
}

/** What there is to say of a board that has not announced anything. */
export function unannouncedWords({ port, health, notices }: Status, words: Catalogue): string {
  const say = words.board;
  const foreign = notices.find(({ code }) => code === 'board-version');
  if (foreign !== undefined) return sentenceOf(foreign, 'notice', words).text;
  if (port.phase === 'replaying') return say.played;
  return health === 'reading' ? say.plain : say.notYet;
}

/** "5 to 200 a second", from the limits of its pace; null where it can't be set. */
export function rateLimits(pace: AnnouncedBoard['pace']): { low: number; high: number } | null {
  if (pace === null || pace.shortest_us >= pace.longest_us) return null;
  return { low: 1e6 / pace.longest_us, high: 1e6 / pace.shortest_us };
}

const SHOWN_AS: Readonly<Partial<Record<QuantityName, Shown>>> = {
  voltage: 'voltage_V',
  current: 'current_A',
  windSpeed: 'windSpeed_mps',
};

/** "Now it reads: current −4.4 mA.", to two digits; "" where nothing is read. */
export function readsNow(
  { quantity }: AnnouncedChannel,
  judgement: Judgement | null,
  prefixes: Prefixes,
  { board, number }: Catalogue,
): string {
  const name = quantityNamed(quantity);
  const shown = name === null ? undefined : SHOWN_AS[name];
  const reading = judgement?.channels.find(({ channel }) => channel === shown);
  if (name === null || shown === undefined || reading === undefined) return '';
  const prefix = prefixes[shown];
  const value = scaled(reading.level, prefix.exponent);
  const text = value === 0 ? '0' : number(decimalAt(value, firstPlace(value) - 1));
  const amount = `${text}${UNIT_SPACE}${unitOf(shown, prefix)}`;
  return board.zero.readsNow(board.quantity[name], amount);
}
