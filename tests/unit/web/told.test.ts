/** What the program says, in the page's language: of what it truly sends, nothing is left out. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { paceRefused, unansweredNotice } from '#core/asking/asking-notices.ts';
import {
  foreignNotice,
  misfitNotice,
  troubleNotice,
  UNANNOUNCED,
} from '#core/reading/stillmark-notices.ts';
import { NOT_NOW, notNow, type NotNow } from '#core/experiment/not-now.ts';
import { refusalOf, NOTHING_KNOWN } from '../../../server/sources/refusal.ts';
import { describeDamage } from '../../../server/store/tables.ts';
import { notCopied } from '../../../server/store/upkeep.ts';
import { worldFailure } from '../../../server/store/world-failure.ts';
import { StoreError } from '../../../server/store/errors.ts';
import {
  portSentence,
  sentenceOf,
  storeSentence,
  zeroSentence,
  type Told,
} from '../../../web/model/told.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';
import { deRefused } from '../../../web/words/program/de-refused.ts';
import { PROGRAM_WORDS } from '../../../web/words/program-languages.ts';
import { ATTACHED_BOARD, statusOf } from '../../support/status.ts';

const OTHERS = ['de', 'es', 'fr'] as const;
const { de, en } = CATALOGUES;

const NOTICES: readonly Told[] = [
  paceRefused('range'),
  paceRefused('unknown'),
  unansweredNotice('identify', false),
  unansweredNotice('pace', true),
  troubleNotice({ kind: 'trouble', channel: 0, trouble: 'supply' }, null),
  troubleNotice({ kind: 'trouble', channel: 2, trouble: 'over' }, null),
  UNANNOUNCED,
  misfitNotice(3, 2),
  foreignNotice(2, 1),
  notCopied('the disk has too little room'),
  { code: 'orphan-command', ...notNow('run-unknown', 'r9 angle_deg=5') },
  { code: 'orphan-zero', message: '', about: ['no-channel', '7', ''] },
  { code: 'orphan-zero', message: '', about: ['no-zero', '3', 'pulses'] },
  { code: 'orphan-zero', message: '', about: ['no-readings', '', ''] },
  { code: 'row-damaged', ...describeDamage('input_chunk', { recordingId: 3, number: 7 }) },
  { code: 'row-damaged', ...describeDamage('trial_revision', { trialId: 12, revision: 2 }) },
  { code: 'row-damaged', message: '', about: ['more', '41'] },
  { code: 'upkeep-failed', message: '', about: ['Error: gone'] },
  { code: 'no-time-column', message: '' },
  { code: 'time-back', message: '', about: [] },
];

/** As long as any sentence wants; each is one that a sentence may hold. */
const NAMES = ['17', 'voltage'];
const FILE_CODES = Object.keys(deRefused.file);

/** Refusals that an operator may meet, as the program sends them. */
const REFUSALS: readonly Told[] = [
  ...(Object.keys(NOT_NOW) as NotNow[])
    .filter((kind) => kind !== 'level-unfit')
    .map((kind) => ({ code: 'command-refused', ...notNow(kind, ...NAMES.slice(0, NOT_NOW[kind].length)) })),
  { code: 'command-refused', ...notNow('level-unfit', '95°', 'not-an-angle', '') },
  { code: 'plan-refused', message: '', about: ['level-twice', '20°', 'not-an-angle', '95°'] },
  { code: 'door-refused', message: '', about: ['no-address', '192.0.2.7'] },
  { code: 'door-refused', message: '', about: ['not-opened', '192.0.2.7', 'EADDRINUSE'] },
  ...FILE_CODES.map((code) => ({ code: 'file-refused', message: '', about: [code] })),
  { code: 'session-unknown', message: '', about: ['empty'] },
  { code: 'bad-field', message: '', about: ['name'] },
];

describe.each(OTHERS)('in %s', (language) => {
  const words = CATALOGUES[language];

  it.each(NOTICES)('the notice $code is said whole', (notice) => {
    const { text, isEnglish } = sentenceOf(notice, 'notice', words);
    expect(isEnglish).toBe(false);
    expect(text).not.toContain('undefined');
    const numbers = (notice.about ?? []).filter((item) => /^\d+$/.test(item));
    for (const number of numbers) expect(text).toContain(number);
  });

  it('every refusal is said whole, with its names, in words and not by a code', () => {
    const codes = new Set([...Object.keys(NOT_NOW), ...FILE_CODES, 'empty', 'no-address', 'level-twice']);
    for (const refusal of REFUSALS) {
      const { text, isEnglish } = sentenceOf(refusal, 'refusal', words);
      expect(isEnglish, text).toBe(false);
      expect(text).not.toMatch(/undefined|not-an-angle/);
      expect(codes.has(text), text).toBe(false);
      expect(text).toMatch(/^\p{L}.*[.!?]$|^«|^„|^\d/u);
      if (refusal.message !== '') expect(text).not.toBe(refusal.message);
    }
  });

  it('a plan that is refused has every reason, a file the one that it has', () => {
    const about = ['level-twice', '20°', 'not-a-length', ''];
    const { text } = sentenceOf({ code: 'plan-refused', message: '', about }, 'refusal', words);
    const { obstacle } = words.bench.form.remark;
    expect(text).toBe(`${obstacle['level-twice']('20°')} ${obstacle['not-a-length']('')}`);
    const texts = FILE_CODES.map((code) => sentenceOf({ code: 'file-refused', message: '', about: [code] }, 'refusal', words).text);
    expect(new Set(texts).size).toBe(FILE_CODES.length);
  });

  it.each(['Permission denied', 'Cannot lock port', 'no such file', 'odd'])(
    'why a port does not open is said: %s',
    (said) => {
      const { code, message, about } = refusalOf('/dev/ttyX0', said, NOTHING_KNOWN);
      const port = { phase: 'refused', board: ATTACHED_BOARD, code, message, about } as const;
      const sentence = portSentence(port, words);
      expect(sentence).toContain('/dev/ttyX0');
      expect(sentence).not.toBe(message);
    },
  );

  it('why a recording was not played to its end is said', () => {
    const sentence = portSentence({ phase: 'ended', message: 'line 7: gone' }, words);
    expect(sentence).toMatch(/^\p{L}.+: line 7: gone$/u);
    expect(portSentence({ phase: 'ended' }, words)).toBeNull();
  });

  it('why saving has stopped is said, with the folder', () => {
    const files = { folder: '/data', database: '/data/s.sqlite', copy: '', lock: '' };
    const gone = worldFailure(new StoreError('data-folder-unusable', 'Gone.'), files);
    const store = { ok: false, message: '', ...gone };
    const sentence = storeSentence(statusOf({ store }), words);
    expect(sentence).toMatchObject({ isEnglish: false });
    expect(sentence?.text).toContain('/data/s.sqlite');
  });

  it('every code that there are words for is one of the program’s', () => {
    const document = readFileSync(join(resolve(import.meta.dirname, '../../..'), 'docs/errors.md'), 'utf8');
    const documented = new Set([...document.matchAll(/^\| `([a-z-]+)`/gm)].map(([, code]) => code));
    const { notice, refusal, store, port } = PROGRAM_WORDS[language];
    const said = [notice, refusal, store, port].flatMap((table) => Object.keys(table));
    expect(said.filter((code) => !documented.has(code))).toEqual([]);
  });
});

describe('a sentence', () => {
  it('is the program’s own in English, and where there are no words or too little was told', () => {
    const notice = foreignNotice(2, 1);
    expect(sentenceOf(notice, 'notice', en)).toMatchObject({ text: notice.message });
    const odd = { code: 'constructor', message: 'Odd.' };
    expect(sentenceOf(odd, 'notice', de)).toEqual({ text: 'Odd.', isEnglish: true });
    const bare = { code: 'board-version', message: 'Another version.' };
    expect(sentenceOf(bare, 'notice', de)).toEqual({ text: 'Another version.', isEnglish: true });
  });

  it('has amounts with the decimal sign of the language, and names as they are', () => {
    const doubt = { code: 'zero-doubtful', message: '', about: ['reads', 'wind', '4.1 m/s'] };
    expect(sentenceOf(doubt, 'refusal', de).text).toContain('Wind 4,1 m/s');
    const full = { code: 'disk-full', message: '', about: ['/data/v1.2'] };
    expect(sentenceOf(full, 'store', de).text).toContain('/data/v1.2');
  });

  it('says a refusal where it knows which it is, else leaves it English', () => {
    const early = { code: 'command-refused', message: 'Too little.', about: ['too-little'] };
    expect(sentenceOf(early, 'refusal', de)).toMatchObject({ isEnglish: false });
    const other = { code: 'command-refused', message: 'Another reason.', about: [] };
    expect(sentenceOf(other, 'refusal', de)).toEqual({ text: 'Another reason.', isEnglish: true });
    const stale = { code: 'command-stale', message: 'Something changed.' };
    expect(sentenceOf(stale, 'refusal', de).text).toBe(de.network.refused['command-stale']);
  });

  it('tells what came of a zero', () => {
    const board = { identity: null, pace: null, channels: [] };
    const zeroing = {
      channel: 2,
      isPending: false,
      message: 'Zero taken.',
      outcome: 'taken' as const,
      about: ['current', '−37', '−4.4 mA', '0'],
    };
    expect(zeroSentence({ ...board, zeroing }, de)?.text).toBe(
      'Nullpunkt gesetzt, Strom: −37 Zählwerte, das sind −4,4 mA (vorher: 0).',
    );
    expect(zeroSentence({ ...board, zeroing }, en)?.text).toBe('Zero taken.');
    expect(zeroSentence({ ...board, zeroing: null }, de)).toBeNull();
  });
});
