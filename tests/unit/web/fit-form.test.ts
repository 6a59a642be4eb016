import { describe, expect, it } from 'vitest';
import { shownGenerator, shownLamp } from '../../../web/model/fit-text.ts';
import {
  areSame,
  EMPTY_FIT_FORM,
  EMPTY_ROW,
  readGenerator,
  readLamp,
  rowsOf,
  type FitRow,
} from '../../../web/fitting/fit-form.ts';
import { LANGUAGES } from '../../../web/words/catalogue.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';

const rows = (...of: [speed: string, volts: string, amps: string][]): FitRow[] =>
  of.map(([speed, volts, amps]) => ({ speed, volts, amps }));
const generatorOf = (generator: FitRow[], speed: 'read' | 'held' | 'free' = 'read') =>
  readGenerator({ ...EMPTY_FIT_FORM, speed, generator });
const plain = (texts: readonly string[]): string => texts.join(' ').replaceAll('\u202f', ' ');

describe('readings that are typed', () => {
  it('are in turns a minute, volts and milliamperes, or in the unit that is typed', () => {
    const { readings, problems } = generatorOf(rows(['1500', '2,94', '20'], ['', '', ''], ['900 rpm', '1190 mV', '0.07 A']));
    expect(problems).toEqual({});
    expect(readings).toEqual({
      speed: 'read',
      steps: [
        { rotorSpeed_radps: expect.closeTo(50 * Math.PI, 9) as number, voltage_V: 2.94, current_A: 0.02 },
        { rotorSpeed_radps: expect.closeTo(30 * Math.PI, 9) as number, voltage_V: 1.19, current_A: 0.07 },
      ],
    });
  });

  it('without a current are without a load; a lamp needs both', () => {
    expect(generatorOf(rows(['1500', '3.1', ''])).readings?.steps[0]).toMatchObject({ current_A: 0 });
    expect(readLamp({ ...EMPTY_FIT_FORM, lamp: rows(['', '2', '']) })).toEqual({ readings: null, problems: { '0.amps': { kind: 'needed' } } });
  });

  it('need a speed only where it was read', () => {
    expect(generatorOf(rows(['', '2.4', '48'])).problems).toEqual({ '0.speed': { kind: 'needed' } });
    expect(generatorOf(rows(['', '2.4', '48']), 'held').readings?.steps).toEqual([{ rotorSpeed_radps: null, voltage_V: 2.4, current_A: 0.048 }]);
  });

  it('are asked back at their field where they can’t be', () => {
    const { readings, problems } = generatorOf(rows(['fast', '200', '1,234'], ['90000', '-1', '3 kg']));
    expect(readings).toBeNull();
    expect(Object.fromEntries(Object.entries(problems).map(([field, { kind }]) => [field, kind]))).toEqual({
      '0.speed': 'no-number',
      '0.volts': 'between',
      '0.amps': 'two-numbers',
      '1.speed': 'between',
      '1.volts': 'between',
      '1.amps': 'unit-unknown',
    });
  });

  it('stand in the form again as they were typed', () => {
    const { readings } = generatorOf(rows(['1500', '2.94', '20'], ['900', '1.19', '']));
    const again = generatorOf(rowsOf(readings!.steps, CATALOGUES.de.number)).readings!;
    expect(rowsOf(readings!.steps, CATALOGUES.de.number)[0]).toEqual({ speed: '1500', volts: '2,94', amps: '20' });
    expect(areSame(again, readings!)).toBe(true);
    expect(areSame({ ...again, speed: 'held' }, readings!)).toBe(false);
    expect(generatorOf([EMPTY_ROW]).readings).toBeNull();
  });
});

describe('what is said of them', () => {
  it('has the figures with their ±, how many readings, and what is missing', () => {
    const of = (...typed: Parameters<typeof rows>) => shownGenerator(generatorOf(rows(...typed)).readings!, CATALOGUES.en);
    // k 0.02 V·s/rad: 2.094 V at 1000 turns a minute; R 10 Ω.
    const two = of(['1500', '2.9416', '20'], ['900', '1.18496', '70']);
    expect(plain(two.sentences)).toContain('2.09 V at 1000 turns a minute. The winding has 10.00 Ω. Readings: 2.');
    expect(plain(two.gaps)).toContain('one reading more');
    const more = of(['1500', '2.95', '20'], ['900', '1.18', '70'], ['1200', '2.01', '50'], ['700', '0.67', '80']);
    expect(plain(more.sentences)).toMatch(/2\.\d+ ± 0\.\d+ V at 1000 turns/);
    expect(more.picture?.points).toHaveLength(4);
    // The line leads through 0 by the slope that is told.
    expect(more.picture?.line[0]).toEqual({ x: 0, y: 0 });
  });

  it.each(LANGUAGES)('has no number that is none, in %s', (language) => {
    const words = CATALOGUES[language];
    const free = generatorOf(rows(['', '2.4', '48'], ['', '1.5', '120']), 'free').readings!;
    const lamps = [rows(['', '2', '90']), rows(['', '2', '90'], ['', '2.5', '110']), rows(['', '1', '50'], ['', '2', '100'])];
    const said = [
      shownGenerator(free, words),
      ...lamps.map((lamp) => shownLamp(readLamp({ ...EMPTY_FIT_FORM, lamp }).readings!, words)),
    ];
    expect(said.map(({ isUsable }) => isUsable)).toEqual([false, false, true, true]);
    for (const { sentences, gaps } of said) expect(plain([...sentences, ...gaps])).not.toMatch(/NaN|undefined|Infinity|null/);
    expect(plain(said[0]!.sentences)).toContain(words.number('12.5'));
    expect(said[3]!.sentences).toContain(words.fit.resistor);
  });
});
