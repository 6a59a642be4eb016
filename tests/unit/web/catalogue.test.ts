/** Every language says everything, in the room's short lines and with its own typography. */
import { describe, expect, it } from 'vitest';
import { LANGUAGES, type Catalogue, type Language, type Setting } from '../../../web/words/catalogue.ts';
import { CATALOGUES, languageFor } from '../../../web/words/languages.ts';
import { PROGRAM_WORDS } from '../../../web/words/program-languages.ts';
import { REPORT_WORDS } from '../../../web/words/report-languages.ts';
import { WHY_WORDS } from '../../../web/words/why-languages.ts';
import { WIRING_WORDS } from '../../../web/words/wiring-languages.ts';

const MOST_LETTERS = 13;

/** Levels as plans have them. */
const SETTINGS: readonly Setting[] = [
  { kind: 'angle', name: 'Blade angle', level: { label: '25°', value: 25 } },
  { kind: 'length', name: 'Blade length', level: { label: '80 mm', value: 0.08 } },
  { kind: 'length', name: 'Blade length', level: { label: 'short', value: null } },
  { kind: 'blades', name: 'Number of blades', level: { label: '3', value: 3 } },
  { kind: 'fan', name: 'Fan setting', level: { label: '2', value: 2 } },
  { kind: 'load', name: 'Load', level: { label: '22 Ω', value: 22 } },
];

/** What a fault may tell, all at once. */
const FAULT = {
  ...{ typed: '1,234', decimal: '1.234', whole: '1234', instance: '2.31', unit: 'V', known: ['V', 'mV'] },
  ...{ reading: '21 V', range: '20 V', step: '0.01 V', most: 20, column: 'power_W', text: 'x', sign: '.' },
  ...{ first: 'power_W', second: 'power_mW', wanted: ['power_W'], levels: ['20°'], fields: 2, columns: 3 },
  ...{ quantity: 'voltage_V', stated: '0.1', product: '0.2' },
};

/** Names and numbers as the program gives them. */
const ABOUT = [
  ['2', 'current', 'mA', '3'],
  ['reads', 'voltage', '2300 mV', 'x'],
];

/** What is said of a field that does not fit. */
const FIELD = { label: 'Shunt', typed: 'x', instance: '0.5', least: '0.001', most: '100 Ω' };

/** What stands beside the catalogue. */
function apart(language: Language) {
  const program = language === 'en' ? {} : PROGRAM_WORDS[language];
  const [report, why] = [REPORT_WORDS[language], WHY_WORDS[language]];
  return { report, why, wiring: WIRING_WORDS[language], program };
}

/** Every text of a catalogue with its path; functions are called with what stands for anything. */
function textsOf(value: unknown, path = ''): { path: string; text: string }[] {
  if (typeof value === 'string') return [{ path, text: value }];
  if (typeof value === 'function') {
    if (/\.(set|setting|setAll|list|number|power)$/.test(path)) return [];
    const call = value as (...given: unknown[]) => unknown;
    if (path.includes('.byHand.') && path.includes('.fault.')) return textsOf(call(FAULT), path);
    if (path.startsWith('.report.better.said')) {
      const about = { percent: '3 %', withoutReason: 1, cause: 'x', isFall: true };
      return [2, 1].flatMap((count) => textsOf(call({ ...about, count }), path));
    }
    if (path.startsWith('.program.')) {
      // What is to be typed or sent is no text of a language.
      const said = ABOUT.map((about) => String(call(...about)).replaceAll(/"\$USER"|\*IDN\?/g, 'x'));
      return said.flatMap((text) => textsOf(text, path));
    }
    if (path.startsWith('.wiring.fault.')) return textsOf(call(FIELD), path);
    const given = [2, 1].map((n) => (path === '.plan.powerAt' ? 'Blade angle' : n));
    return given.flatMap((one) => textsOf(call(one, one, one), path));
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => textsOf(one, `${path}.${key}`));
}

function linesOf(words: Catalogue): readonly string[] {
  const { set, setAll: _setAll, ...fixed } = words.instruction;
  return [
    ...textsOf(fixed).map(({ text }) => text),
    ...textsOf(words.question.asked).map(({ text }) => text),
    ...SETTINGS.flatMap((setting) => set(setting)),
  ];
}

describe.each(LANGUAGES)('the words in %s', (language) => {
  const words = CATALOGUES[language];
  const texts = textsOf({ ...words, ...apart(language) });

  it('call themselves by their language', () => {
    expect(words.language).toBe(language);
  });
  it('instruct in lines of at most 13 letters, the last stop not counted', () => {
    const long = linesOf(words).filter((line) => line.replace(/[.!?]$/, '').length > MOST_LETTERS);
    expect(long).toEqual([]);
  });
  it('leave nothing empty but what may be', () => {
    const empty = texts.filter(({ text }) => text.trim() === '').map(({ path }) => path);
    const mayBe = /^\.below\.\w+\.detail$|^\.below\.refused\.moving$/;
    expect(empty.filter((path) => !mayBe.test(path))).toEqual([]);
  });
  it('use curved apostrophes, no straight quotes, and no double or outer spaces', () => {
    expect(texts.filter(({ text }) => /['"]|\.\.\.| {2}/.test(text))).toEqual([]);
    const trimmed = texts.filter(({ path }) => path !== '.page.simulated');
    expect(trimmed.filter(({ text }) => text !== text.trim())).toEqual([]);
  });
  it('write numbers with the mark of the language', () => {
    const mark = new Intl.NumberFormat(language).formatToParts(1.5).find((p) => p.type === 'decimal');
    expect(words.number('2.31')).toBe(`2${mark?.value}31`);
    expect(words.number('−0.5')).toBe(`−0${mark?.value}5`);
    expect(words.number('243')).toBe('243');
  });
});

describe('typography', () => {
  // Lexique des règles typographiques en usage à l'Imprimerie nationale (from memory): a thin
  // space that does not break before ; : ! ?; Unicode's line breaking annex names U+202F for it.
  it('French has a narrow space before : ; ! ?', () => {
    const wrong = textsOf({ ...CATALOGUES.fr, ...apart('fr') }).filter(({ text }) => /[^\u202f\d][:;!?]/.test(text));
    expect(wrong).toEqual([]);
  });
  // Ortografía de la lengua española (2010), 3.4.9 (from memory): both ends are marked.
  it('Spanish opens what it asks and exclaims', () => {
    const count = (text: string, mark: string): number => text.split(mark).length - 1;
    const { instruction, question, ...others } = CATALOGUES.es;
    // A question may run over both lines of an instruction.
    const inOneLine = [...Object.values(instruction), ...Object.values(question.asked)]
      .filter((lines) => Array.isArray(lines))
      .map((lines) => ({ path: 'instruction', text: lines.join(' ') }));
    const all = [...textsOf(others), ...textsOf(apart('es')), ...inOneLine];
    for (const { path, text } of all) {
      expect(`${path} ${count(text, '¿')} ${count(text, '¡')}`).toBe(
        `${path} ${count(text, '?')} ${count(text, '!')}`,
      );
    }
  });
});

describe('the language of a device', () => {
  it('is the first it prefers that there are words for', () => {
    expect(languageFor(['de-CH', 'en'])).toBe('de');
    expect(languageFor(['nl-NL', 'fr-CA', 'en'])).toBe('fr');
    expect(languageFor(['ES'])).toBe('es');
    expect(languageFor(['ja'])).toBe('en');
    expect(languageFor([])).toBe('en');
  });
});
