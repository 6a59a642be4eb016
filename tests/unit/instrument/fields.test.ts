/** What people type: units, limits, and sentences that name the field and say what is expected. */
import { describe, expect, it } from 'vitest';
import {
  ComparisonSchema,
  DividerDesignSchema,
  MonitorDesignSchema,
  ShuntDesignSchema,
} from '#core/instrument/designs.ts';
import { FIELDS, fieldSchema, type FieldName } from '#core/instrument/fields.ts';

const INITIAL = Object.fromEntries(
  Object.entries(FIELDS).map(([name, { initial }]) => [name, initial]),
) as Record<FieldName, string>;
const COMPARED = { ...INITIAL, quantity: 'voltage' };

function said(name: FieldName, text: string): string {
  const result = fieldSchema(name).safeParse(text);
  return result.success ? `= ${result.data}` : (result.error.issues[0]?.message ?? '');
}

describe('a field', () => {
  it('takes a number in its own unit and gives SI', () => {
    expect(said('upper', ' 4.7 ')).toBe('= 4700');
    expect(said('upperTolerance', '5')).toBe('= 0.05');
    expect(said('amplifierOffset', '0.5')).toBe('= 0.0005');
    expect(said('shunt', '1e-1')).toBe('= 0.1');
  });

  it('refuses a decimal comma, as the board’s lines do, and says what to type', () => {
    const words = 'Upper resistor: use a decimal point, not a comma: 4.7 rather than 4,7.';
    expect(said('upper', '4,7')).toBe(words);
    expect(said('upper', '1,000.5')).toBe(words);
  });

  it('says what it wants instead of guessing', () => {
    expect(said('upper', '')).toBe('Upper resistor: type a number, for instance 20.');
    expect(said('upper', '4k7')).toBe(
      'Upper resistor: “4k7” is not a number. Type one like 20, without its unit.',
    );
    expect(said('shunt', '0')).toBe('Shunt: must be from 0.001 to 100 Ω.');
    expect(said('bits', '10.5')).toBe('Bits of the converter: must be a whole number, for instance 10.');
    expect(said('largestVoltage', '230')).toBe(
      'Largest voltage without the lamp: must be from 0.1 to 30 V.',
    );
    expect(said('reference', 'NaN')).toMatch(/is not a number/);
    expect(said('reference', '5 V')).toMatch(/without its unit/);
  });

  it('begins with what it would itself accept', () => {
    for (const name of Object.keys(FIELDS) as FieldName[]) {
      expect(fieldSchema(name).safeParse(FIELDS[name].initial).success, name).toBe(true);
    }
  });
});

describe('a form', () => {
  it('becomes a design in SI units', () => {
    expect(DividerDesignSchema.parse(INITIAL).divider).toMatchObject({
      upper_Ohm: 20_000,
      lowerTolerance: 0.01,
      converter: { reference_V: 5, referenceTolerance: 0.05, bits: 10 },
    });
    expect(ShuntDesignSchema.parse(INITIAL)).toMatchObject({
      shunt: { amplifierOffset_V: 0.0005 },
      largest_A: 0.3,
    });
    expect(MonitorDesignSchema.parse({ ...INITIAL, monitorRange: '80' }).monitor.range_mV).toBe(80);
  });

  it('names every field that does not fit', () => {
    const { error } = DividerDesignSchema.safeParse({ ...INITIAL, upper: 'x', lower: '1,2' });
    expect(error?.issues.map(({ path }) => path[0])).toEqual(['upper', 'lower']);
    const range = MonitorDesignSchema.safeParse({ ...INITIAL, monitorRange: '100' });
    expect(range.error?.issues[0]?.message).toBe('Range: choose 40, 80, 160 or 320 mV.');
  });

  it('reads a display to its last digit', () => {
    const points = [
      { meter: '2.30', page: '2.3124' },
      { meter: '0', page: '−0.012' },
    ];
    const typed = { ...COMPARED, points };
    expect(ComparisonSchema.parse(typed).points).toEqual([
      { meter: { value: 2.3, resolution: 0.01 }, page: { value: 2.3124, resolution: 0.0001 } },
      { meter: { value: 0, resolution: 1 }, page: { value: -0.012, resolution: 0.001 } },
    ]);
  });

  it('takes currents in mA, and the offset in the unit of the sketch', () => {
    const points = [
      { meter: '105.2', page: '104' },
      { meter: '0', page: '1' },
    ];
    const typed = { ...COMPARED, quantity: 'current', presentOffset: '-3', points };
    const { points: read, present } = ComparisonSchema.parse(typed);
    expect(read[0]).toEqual({
      meter: { value: expect.closeTo(0.1052, 12), resolution: expect.closeTo(1e-4, 15) },
      page: { value: expect.closeTo(0.104, 12), resolution: expect.closeTo(1e-3, 15) },
    });
    expect(present.offset).toBeCloseTo(-0.003, 12);
  });

  it('asks for readings as they stand on the display, two of them at least', () => {
    const first = (points: { meter: string; page: string }[]): string | undefined =>
      ComparisonSchema.safeParse({ ...COMPARED, points }).error?.issues[0]?.message;
    const good = { meter: '1.00', page: '1.01' };
    expect(first([good])).toBe(
      'Readings: at least two pairs are needed, far apart; three or more check themselves.',
    );
    expect(first([good, { meter: '2,31', page: '2.3' }])).toBe(
      'Reading of the meter: use a decimal point, not a comma: 2.31 rather than 2,31.',
    );
    expect(first([good, { meter: '2.31', page: 'OL' }])).toBe(
      'Reading of the page: type the number as it stands there, for instance 2.31.',
    );
  });
});
