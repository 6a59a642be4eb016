import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readKeyedForm, unitsOfMeter, type KeyedForm } from '#core/experiment/keyed-form.ts';
import { KeyedReadingsSchema, keyedTrial, type KeyedReadings } from '#core/experiment/keyed.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import { enByHand } from '../../../web/words/by-hand/en.ts';
import { faultWords } from '../../../web/words/by-hand-words.ts';

const FORM: KeyedForm = {
  runId: 'r1 angle_deg=20',
  meters: {
    voltage: { unit: 'V', range: '20', lastDigit: '0,01', percent: '0.5', counts: '2' },
    current: { unit: 'mA', range: '200', lastDigit: '0.1', percent: '1 %', counts: '3' },
    windSpeed: null,
  },
  readings: [{ voltage: '2,31', current: '43.1', windSpeed: '' }],
  didNotTurn: false,
  note: ' window was open ',
};

type Row = KeyedForm['readings'][number];
const row = (voltage: string, current: string, windSpeed = ''): Row => ({
  voltage,
  current,
  windSpeed,
});

function readingsOf(form: KeyedForm): KeyedReadings {
  const read = readKeyedForm(form);
  if ('remarks' in read) throw new Error(JSON.stringify(read.remarks));
  return read.readings;
}

function remarksOf(form: KeyedForm): string[] {
  const read = readKeyedForm(form);
  if (!('remarks' in read)) return [];
  return read.remarks.map(({ field, fault }) => `${field}: ${faultWords(enByHand.keyed.fault, fault)}`);
}

describe('one reading', () => {
  const trial = keyedTrial(readingsOf(FORM));

  it('has the uncertainty of the meters alone', () => {
    // ±(0.5 % of 2.31 V + 2 · 0.01 V), ±(1 % of 43.1 mA + 3 · 0.1 mA), each over √3 (GUM 4.3.7).
    const [voltage, current] = [0.03155 / Math.sqrt(3), 0.000731 / Math.sqrt(3)];
    expect(trial.sampleCount).toBe(1);
    expect(trial.voltage_V?.value).toBe(2.31);
    expect(trial.voltage_V?.standardUncertainty).toBeCloseTo(voltage, 12);
    expect(trial.current_A?.standardUncertainty).toBeCloseTo(current, 12);
    expect(trial.power_W?.value).toBeCloseTo(0.099561, 12);
    const exact = Math.hypot(0.0431 * voltage, 2.31 * current, voltage * current);
    expect(trial.power_W?.standardUncertainty).toBeCloseTo(exact, 12);
    expect(trial).toMatchObject({ windSpeed_mps: null, rotorSpeed_radps: null, rotorStill: false });
  });

  it('is known as well as limits are, with numbers that JSON can hold', () => {
    expect(JSON.parse(JSON.stringify(trial))).toEqual(trial);
    const { standardUncertainty } = trial.power_W!;
    expect((expandedUncertainty(trial.power_W!) ?? 0) / standardUncertainty!).toBeCloseTo(1.96, 3);
  });
});

describe('several readings', () => {
  it('bring their scatter in; the meter’s part is not averaged away', () => {
    const rows = ['2.30', '2.32', '2.31', '2.33'].map((voltage) => row(voltage, '43.1'));
    const { voltage_V, sampleCount } = keyedTrial(readingsOf({ ...FORM, readings: rows }));
    const scatter = Math.sqrt((2 * 0.015 ** 2 + 2 * 0.005 ** 2) / (4 * 3));
    const meter = (0.005 * 2.315 + 0.02) / Math.sqrt(3);
    expect(sampleCount).toBe(4);
    expect(voltage_V?.standardUncertainty).toBeCloseTo(Math.hypot(scatter, meter), 12);
    const share = scatter ** 2 / (scatter ** 2 + meter ** 2);
    expect(voltage_V?.degreesOfFreedom).toBeCloseTo(3 / share ** 2, 6);
  });

  it('two that differ widely are known badly', () => {
    const rows = [row('2.0', '43.1'), row('2.6', '43.1')];
    const { voltage_V } = keyedTrial(readingsOf({ ...FORM, readings: rows }));
    expect(voltage_V?.degreesOfFreedom).toBeLessThan(1.1);
    expect(expandedUncertainty(voltage_V!)).toBeGreaterThan(3);
  });

  it('rows of nothing are passed over', () => {
    const rows = [row('', ' '), row('2.31', '43.1'), row('', '')];
    expect(readingsOf({ ...FORM, readings: rows }).readings).toHaveLength(1);
  });
});

describe('digits', () => {
  it('fewer than the meter shows: what was left off counts', () => {
    const full = keyedTrial(readingsOf({ ...FORM, readings: [row('2.30', '43.1')] })).voltage_V!;
    const short = keyedTrial(readingsOf({ ...FORM, readings: [row('2.3', '43.1')] })).voltage_V!;
    const added = short.standardUncertainty! ** 2 - full.standardUncertainty! ** 2;
    expect(Math.sqrt(added)).toBeCloseTo(0.1 / Math.sqrt(12), 9);
  });

  it('a closing zero left off once is none lost', () => {
    const of = (second: string) =>
      keyedTrial(readingsOf({ ...FORM, readings: [row('2.31', '43.1'), row(second, '43.1')] }));
    expect(of('2.3')).toEqual(of('2.30'));
  });

  it('a meter without counts has its last digit beside', () => {
    const meter = { ...FORM.meters.voltage, counts: '0' };
    const { voltage_V } = keyedTrial(
      readingsOf({ ...FORM, meters: { ...FORM.meters, voltage: meter } }),
    );
    expect(voltage_V?.standardUncertainty).toBeCloseTo(
      Math.hypot((0.005 * 2.31) / Math.sqrt(3), 0.01 / Math.sqrt(12)),
      12,
    );
  });
});

describe('a rotor that did not turn', () => {
  it('is power zero, with an uncertainty above zero', () => {
    const trial = keyedTrial(readingsOf({ ...FORM, readings: [row('0.00', '0.0')] }));
    expect(trial.rotorStill).toBe(true);
    expect(trial.power_W?.value).toBe(0);
    expect(trial.power_W?.standardUncertainty).toBeGreaterThan(0);
  });
});

describe('the wind', () => {
  const windSpeed = { unit: 'km/h', range: '100', lastDigit: '0.1', percent: '3', counts: '1' };

  it('is read where somebody has read it', () => {
    const readings = [row('2.31', '43.1', '14.4'), row('2.31', '43.1'), row('2.30', '43.1', '4.1 m/s')];
    const trial = keyedTrial(readingsOf({ ...FORM, meters: { ...FORM.meters, windSpeed }, readings: readings.slice(0, 2) }));
    expect(trial.windSpeed_mps?.value).toBeCloseTo(4, 12);
    const limit = 0.03 * 4 + 0.1 / 3.6;
    expect(trial.windSpeed_mps?.standardUncertainty).toBeCloseTo(limit / Math.sqrt(3), 12);
    // 4.1 m/s is 14.76 km/h, which a display with steps of 0.1 km/h can't show.
    expect(remarksOf({ ...FORM, meters: { ...FORM.meters, windSpeed }, readings })).toEqual([
      'readings.2.windSpeed: This range shows steps of 0.1 km/h; 14.76 km/h lies between two. Check the reading and the range.',
    ]);
  });

  it('is asked for its meter', () => {
    expect(remarksOf({ ...FORM, readings: [row('2.31', '43.1', '4')] })).toEqual([
      'readings.0.windSpeed: Say first what the wind meter’s range and accuracy are.',
    ]);
  });
});

describe('what is wrong is said at its field', () => {
  const withRow = (voltage: string, current: string) =>
    remarksOf({ ...FORM, readings: [row(voltage, current)] });

  it('more than the range shows', () => {
    expect(withRow('20.01', '43.1')).toEqual([
      'readings.0.voltage: 20.01 V is more than this range shows (20 V). Set the meter to a larger range, choose it above, and read again.',
    ]);
    expect(withRow('2.31', '0.431 A')).toEqual([
      'readings.0.current: 431 mA is more than this range shows (200 mA). Set the meter to a larger range, choose it above, and read again.',
    ]);
  });

  it('a digit that the range does not have', () => {
    expect(withRow('2.315', '43.1')).toEqual([
      'readings.0.voltage: This range shows steps of 0.01 V; 2.315 V lies between two. Check the reading and the range.',
    ]);
    expect(withRow('2310 mV', '43.1')).toEqual([]);
  });

  it('one that is wanting, or signs that don’t go together', () => {
    expect(withRow('2.31', '')).toEqual(['readings.0.current: Type a number, for instance 43.1.']);
    expect(withRow('-2.31', '43.1')[0]).toMatch(/^readings\.0\.current: .*leads are swapped/);
    expect(withRow('-2.31', '-43.1')).toEqual([]);
    expect(remarksOf({ ...FORM, readings: [] })).toEqual([
      'readings.0.voltage: Type at least one reading.',
    ]);
  });

  it('a meter that can’t be', () => {
    const meter = (change: Partial<KeyedForm['meters']['voltage']>) =>
      remarksOf({
        ...FORM,
        meters: { ...FORM.meters, voltage: { ...FORM.meters.voltage, ...change } },
      });
    expect(meter({ range: '0' })).toEqual(['meters.voltage.range: Type a number above 0.']);
    expect(meter({ percent: '25' })).toEqual(['meters.voltage.percent: From 0 to 20 %.']);
    expect(meter({ counts: '-1' })).toEqual(['meters.voltage.counts: From 0 to 100 counts.']);
    expect(meter({ lastDigit: '20' })).toEqual([
      'meters.voltage.lastDigit: The last digit is worth less than the range. Check both.',
    ]);
    expect(meter({ percent: '0', counts: '0' })).toEqual([
      'meters.voltage.percent: No meter is exact. Its manual gives the accuracy, for instance ±(0.8 % + 2).',
    ]);
  });
});

describe('any form', () => {
  const text = fc.oneof(
    fc.string({ maxLength: 12 }),
    fc.stringMatching(/^-?\d{1,3}([.,]\d{1,3})?( ?m?[VA])?$/),
  );
  const mostly = (usual: fc.Arbitrary<string>) =>
    fc.oneof({ weight: 9, arbitrary: usual }, { weight: 1, arbitrary: text });
  const digits = (most: number, places: number) =>
    fc.integer({ min: 0, max: most }).map((count) => (count / 10 ** places).toFixed(places));
  const meter = (usual: KeyedForm['meters']['voltage'], units: readonly string[]) => {
    const any = { unit: fc.constantFrom(...units), range: text, lastDigit: text, percent: text, counts: text };
    return fc.oneof({ weight: 9, arbitrary: fc.constant(usual) }, { weight: 1, arbitrary: fc.record(any) });
  };
  const wind = { unit: 'm/s', range: '30', lastDigit: '0.1', percent: '3', counts: '1' };
  const forms = fc.record<KeyedForm>({
    runId: fc.constant(null),
    meters: fc.record({
      voltage: meter(FORM.meters.voltage, unitsOfMeter('voltage')),
      current: meter(FORM.meters.current, unitsOfMeter('current')),
      windSpeed: fc.option(meter(wind, unitsOfMeter('windSpeed')), { freq: 3 }),
    }),
    readings: fc.array(
      fc.record({
        voltage: mostly(digits(2000, 2)),
        current: mostly(digits(2000, 1)),
        windSpeed: fc.oneof(mostly(digits(300, 1)), fc.constant('')),
      }),
      { maxLength: 4 },
    ),
    didNotTurn: fc.boolean(),
    note: fc.string(),
  });

  it('gives readings that the record can hold, or remarks', () => {
    const seen = { readings: 0, remarks: 0 };
    fc.assert(
      fc.property(forms, (form) => {
        const read = readKeyedForm(form);
        if ('remarks' in read) {
          seen.remarks += 1;
          expect(read.remarks.length).toBeGreaterThan(0);
          return;
        }
        seen.readings += 1;
        expect(KeyedReadingsSchema.parse(read.readings)).toEqual(read.readings);
        const { power_W } = keyedTrial(read.readings);
        expect(power_W?.standardUncertainty).toBeGreaterThan(0);
        expect(power_W?.value).toBeGreaterThanOrEqual(0);
        expect(power_W?.degreesOfFreedom).toBeGreaterThan(0);
      }),
      { numRuns: 500 },
    );
    // Both ways are tried, and often.
    expect(Math.min(seen.readings, seen.remarks)).toBeGreaterThan(50);
  });
});
