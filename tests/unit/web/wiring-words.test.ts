/** Numbers and warnings as the wiring page puts them. */
import { describe, expect, it } from 'vitest';
import type { DividerDesign, ShuntDesign } from '#core/instrument/designs.ts';
import { amount, ohms, percent } from '../../../web/wiring/amounts.ts';
import { spokenIn } from '../../../web/wiring/speech.ts';
import { dividerWords, shuntWords } from '../../../web/wiring/words.ts';
import { typedWithPoint, withComma, withPoint } from '../../../web/words/numbers.ts';

const EN = spokenIn('en');
const plain = (text: string): string => text.replaceAll('\u202f', ' ');

describe('numbers', () => {
  it('have three digits and a prefix', () => {
    expect(plain(amount(14.985, 'V'))).toBe('15.0 V');
    expect(plain(amount(0.0146, 'V'))).toBe('14.6 mV');
    expect(plain(amount(0.00048828, 'A'))).toBe('488 µA');
    expect(plain(amount(0.9996, 'A'))).toBe('1.00 A');
    expect(plain(amount(0, 'A'))).toBe('0 A');
  });

  it('are percentages to two digits', () => {
    expect(plain(percent(0.029155))).toBe('2.9 %');
    expect(plain(percent(0.000333))).toBe('0.033 %');
    expect(plain(percent(0.123))).toBe('12 %');
    expect(plain(percent(0))).toBe('0 %');
  });

  it('name resistors as people do', () => {
    expect(plain(ohms(0.82))).toBe('0.82 Ω');
    expect(plain(ohms(6666.7))).toBe('6.7 kΩ');
    expect(plain(ohms(1))).toBe('1.0 Ω');
  });
});

const CONVERTER = { reference_V: 5, referenceTolerance: 0.05, bits: 10, partsPerStep: 64 };

function dividerOf(upper_Ohm: number, lower_Ohm: number, largest_V: number): DividerDesign {
  return {
    divider: {
      upper_Ohm,
      upperTolerance: 0.01,
      lower_Ohm,
      lowerTolerance: 0.01,
      converter: CONVERTER,
    },
    largest_V,
    sourceResistance_Ohm: 10,
  };
}

describe('warnings', () => {
  const first = (design: DividerDesign): string => plain(dividerWords(design, EN).warnings[0] ?? '');

  it('come where the range, the pin or the diodes would not do', () => {
    expect(dividerWords(dividerOf(20e3, 10e3, 12), EN).warnings).toEqual([]);
    expect(first(dividerOf(20e3, 10e3, 16))).toMatch(/^Too small: it ends at 15\.0 V/);
    expect(first(dividerOf(200e3, 100e3, 12))).toMatch(/^The pin sees 67 kΩ: too much\./);
    // By hand, reversed: (14.3 − 0.7) V over 2 kΩ, less 0.7 V over 1 kΩ.
    expect(first(dividerOf(2e3, 1e3, 14.3))).toMatch(/^The clamping diodes might have to carry 6\.1 mA/);
  });

  it('come where the amplifier ends before the current does', () => {
    const design: ShuntDesign = {
      shunt: {
        resistance_Ohm: 0.5,
        tolerance: 0.01,
        amplifierGain: 20,
        amplifierGainTolerance: 0.01,
        amplifierOffset_V: 0.0005,
        amplifierMargin_V: 0.02,
        converter: CONVERTER,
      },
      largest_A: 0.499,
    };
    expect(plain(shuntWords(design, EN).warnings[0] ?? '')).toMatch(/^Too small: it ends at 498 mA/);
    expect(shuntWords({ ...design, largest_A: 0.498 }, EN).warnings).toEqual([]);
  });
});

describe('the worst part', () => {
  it('is named, and that it is shared', () => {
    const { facts } = dividerWords(dividerOf(20e3, 10e3, 12), EN);
    expect(facts[0]).toBe(
      'Most of that comes from the reference of the converter, which voltage and current share. A check against a multimeter takes its place.',
    );
  });
});

describe('in another language', () => {
  it('the same is said, with its own decimal sign', () => {
    const { sentence } = dividerWords(dividerOf(20e3, 10e3, 12), spokenIn('de'));
    expect(plain(sentence)).toMatch(/^Misst bis 15,0 V in Stufen von 14,6 mV\. .* um 2,9 % unsicher/);
  });

  it('a comma may be typed where the language writes one, and means one thing', () => {
    const typed = ['4,7', '4.7', '1,000.5', '1,000,5'];
    expect(typed.map((text) => typedWithPoint(text, withComma))).toEqual([
      '4.7',
      '4.7',
      '1,000.5',
      '1.000,5',
    ]);
    expect(typed.map((text) => typedWithPoint(text, withPoint))).toEqual(typed);
  });
});
