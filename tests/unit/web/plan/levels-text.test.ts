/** Levels as people type them. What a decimal comma is: SI brochure (2019), 5.4.4. */
import { describe, expect, it } from 'vitest';
import type { FactorKind } from '../../../../web/plan/units.ts';
import { keyOf } from '../../../../web/plan/units.ts';
import { readLevels } from '../../../../web/plan/levels-text.ts';
import { readNumber } from '#core/metrology/typed-number.ts';
import { readTimeOfDay } from '../../../../web/plan/counts-and-times.ts';

const read = (text: string, kind: FactorKind = 'angle', unit = '°'): string[] =>
  readLevels(text, kind, unit).map(({ label, value }) => `${label.replaceAll('\u202f', ' ')} = ${value}`);

describe('levels', () => {
  it('are numbers between blanks, commas, semicolons or line ends', () => {
    const wanted = ['10° = 10', '25° = 25', '40° = 40'];
    for (const text of ['10 25 40', '10, 25, 40', '10,25,40', '10; 25; 40', '10\n25\n40', ' 10  25 40, ']) {
      expect(read(text), text).toEqual(wanted);
    }
  });

  it('have decimal commas or points, and a sign', () => {
    expect(read('2,5 3,5')).toEqual(['2,5° = 2.5', '3,5° = 3.5']);
    expect(read('2,5; 3')).toEqual(['2,5° = 2.5', '3° = 3']);
    expect(read('2.5, 3,5')).toEqual(['2.5° = 2.5', '3,5° = 3.5']);
    expect(read('-5 .5')).toEqual(['−5° = -5', '.5° = 0.5']);
  });

  it('may have their unit typed beside them, also another one', () => {
    expect(read('10° 25 °')).toEqual(['10° = 10', '25° = 25']);
    expect(read('60mm 8 cm 0,1 m', 'length', 'mm')).toEqual(['60 mm = 0.06', '8 cm = 0.08', '0,1 m = 0.1']);
    expect(read('3 blades, 4 blades', 'blades', '')).toEqual(['3 = 3', '4 = 4']);
    expect(read('22 1,5 kOhm', 'load', 'Ω')).toEqual(['22 Ω = 22', '1,5 kΩ = 1500']);
  });

  it('may be names', () => {
    expect(read('short medium long', 'own', '')).toEqual(['short = null', 'medium = null', 'long = null']);
    expect(read('very short, long', 'own', '')).toEqual(['very short = null', 'long = null']);
    expect(read('kurz,lang', 'own', '')).toEqual(['kurz = null', 'lang = null']);
  });

  it('may be names with a number', () => {
    const wanted = ['short, 60 mm = 0.06', 'long, 100 mm = 0.1'];
    for (const text of ['short 60 mm, long 100 mm', 'short 60 long 100', 'short 60 mm long 100 mm', 'short, 60 mm; long, 100 mm']) {
      expect(read(text, 'length', 'mm'), text).toEqual(wanted);
    }
  });

  it('are none where nothing is typed', () => {
    for (const text of ['', '  ', ',', ' ; ,\n']) expect(read(text).filter((one) => one !== ', = null')).toEqual([]);
  });
});

describe('a number', () => {
  it.each([['2,5', 2.5], ['2.5', 2.5], ['−3', -3], ['007', 7], ['1e3', null], ['1.2.3', null], ['', null], ['Infinity', null], ['0x10', null]] as const)(
    'typed as %j',
    (text, value) => expect(readNumber(text)).toBe(value),
  );
});

describe('a time of day', () => {
  it.each([['14:45', '14:45'], ['9.05', '09:05'], ['14h45', '14:45'], ['1445', '14:45'], ['2:45 pm', '14:45'], ['12:10 am', '00:10'], ['24:00', null], ['14:60', null], ['noon', null]] as const)(
    'typed as %j',
    (text, time) => expect(readTimeOfDay(text)).toBe(time),
  );
});

describe('the key under which a trial carries a level', () => {
  it.each([
    ['angle', 'Pitch', '°', 'angle_deg'],
    ['length', 'Length', 'cm', 'length_m'],
    ['own', 'Tail size', 'cm', 'tailSize_cm'],
    ['own', 'Größe', '', 'grosse'],
    ['own', '3 Löcher', 'µm', 'locher_um'],
    ['own', '螺旋', '', 'factor2'],
  ] as const)('%s %j in %j', (kind, name, unit, key) => expect(keyOf(kind, name, unit, 1)).toBe(key));
});
