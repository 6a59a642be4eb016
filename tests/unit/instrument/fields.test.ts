/** What people type: units, limits, and what is wrong with what does not fit. */
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

  it('refuses a decimal comma, as the board’s lines do', () => {
    expect(said('upper', '4,7')).toBe('comma');
    expect(said('upper', '1,000.5')).toBe('comma');
  });

  it('says what is wrong instead of guessing', () => {
    expect(said('upper', '')).toBe('empty');
    expect(said('upper', '4k7')).toBe('no-number');
    expect(said('shunt', '0')).toBe('out-of-limits');
    expect(said('bits', '10.5')).toBe('not-whole');
    expect(said('largestVoltage', '230')).toBe('out-of-limits');
    expect(said('reference', 'NaN')).toBe('no-number');
    expect(said('reference', '5 V')).toBe('no-number');
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
    expect(range.error?.issues.map(({ path }) => path[0])).toEqual(['monitorRange']);
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
    const wrong = (points: { meter: string; page: string }[]): unknown[] => {
      const { error } = ComparisonSchema.safeParse({ ...COMPARED, points });
      return error?.issues.map(({ path, message }) => [...path, message]) ?? [];
    };
    const good = { meter: '1.00', page: '1.01' };
    expect(wrong([good])).toEqual([['points', expect.any(String)]]);
    expect(wrong([good, { meter: '2,31', page: '2.3' }])).toEqual([['points', 1, 'meter', 'comma']]);
    expect(wrong([good, { meter: '2.31', page: 'OL' }])).toEqual([['points', 1, 'page', 'no-number']]);
  });
});
