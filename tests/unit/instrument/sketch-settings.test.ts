/** The lines for a sketch's settings block, against the sketches themselves. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  ComparisonSchema,
  DividerDesignSchema,
  MonitorDesignSchema,
  ShuntDesignSchema,
} from '#core/instrument/designs.ts';
import { dividerChannel } from '#core/instrument/divider.ts';
import { FIELDS } from '#core/instrument/fields.ts';
import { calibrate } from '#core/instrument/meter-comparison.ts';
import { shuntChannel } from '#core/instrument/shunt.ts';
import {
  builtSettings,
  calibratedSettings,
  monitorSettings,
} from '#core/instrument/sketch-settings.ts';

const FIRMWARE = resolve(import.meta.dirname, '../../../firmware-protocol/firmware');

/** `#define NAME value` of a text, without quotation marks. */
function definesOf(text: string): Map<string, string> {
  return new Map(
    [...text.matchAll(/^#define (\w+) "?([^"\n]*)"?$/gm)].map(([, name = '', value = '']) => [
      name,
      value,
    ]),
  );
}

function sketch(name: string): Map<string, string> {
  return definesOf(readFileSync(join(FIRMWARE, name, `${name}.ino`), 'utf8'));
}

const INITIAL = Object.fromEntries(
  Object.entries(FIELDS).map(([name, { initial }]) => [name, initial]),
);
const THREE_VOLTS = { reference: '3.3', bits: '12', partsPerStep: '16' };

const built = (typed: Record<string, string>): string =>
  [
    builtSettings(dividerChannel(DividerDesignSchema.parse(typed).divider)),
    builtSettings(shuntChannel(ShuntDesignSchema.parse(typed).shunt)),
  ].join('\n');

const CASES = [
  { name: 'adc-board', text: built(INITIAL) },
  {
    name: 'fast-board',
    text: built({ ...INITIAL, ...THREE_VOLTS, upper: '40', amplifierGain: '10' }),
  },
  {
    name: 'monitor-board',
    text: monitorSettings(
      MonitorDesignSchema.parse({ ...INITIAL, monitorRange: '320' }).monitor,
    ),
  },
];

describe.each(CASES)('for $name', ({ name, text }) => {
  it('every line replaces one that stands in the sketch', () => {
    expect([...definesOf(text).keys()].filter((one) => !sketch(name).has(one))).toEqual([]);
  });

  it('the parts that the sketch was written for come to its own scales', () => {
    for (const setting of ['VOLTAGE_SCALE', 'CURRENT_SCALE']) {
      const [ours, theirs] = [definesOf(text), sketch(name)].map((all) => Number(all.get(setting)));
      expect(Math.abs((ours ?? 0) / (theirs ?? 0) - 1), setting).toBeLessThan(5.1e-8);
    }
  });
});

describe('after a comparison with a meter', () => {
  it('the lines are in the units of the sketch, mV', () => {
    const points = [
      { meter: '0.10', page: '0.0000' },
      { meter: '5.10', page: '4.0000' },
    ];
    const typed = { ...INITIAL, quantity: 'voltage', points };
    const found = calibrate(ComparisonSchema.parse(typed));
    if (found === null) throw new Error('no calibration');
    const defines = definesOf(calibratedSettings('voltage', found));
    expect(defines.get('VOLTAGE_GAIN')).toBe('1.25');
    expect(defines.get('VOLTAGE_OFFSET')).toBe('100');
    // By hand: ±2 counts of 10 mV by √3, and the last digit of the lower pair, 10 mV by √12.
    expect(Number(defines.get('VOLTAGE_OFFSET_UNCERTAINTY'))).toBeCloseTo(Math.hypot(11.55, 2.89), 0);
    expect([...defines.keys()].filter((one) => !sketch('adc-board').has(one))).toEqual([]);
  });
});
