/** Divider, shunt, monitor and preferred values: figures worked by hand, and what they do to a rig. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SOURCE_LIMIT_OHM } from '#core/instrument/converter.ts';
import {
  clampCurrent_A,
  dividerChannel,
  dividerLoad,
  pinSourceResistance_Ohm,
  type Divider,
} from '#core/instrument/divider.ts';
import { calibrate } from '#core/instrument/meter-comparison.ts';
import { monitorCurrentChannel, monitorVoltageChannel } from '#core/instrument/monitor.ts';
import {
  preferredAtMost,
  preferredBetween,
  preferredDivider,
  PREFERRED,
} from '#core/instrument/preferred-values.ts';
import { burden, shuntChannel, type Shunt } from '#core/instrument/shunt.ts';

const CONVERTER = { reference_V: 5, referenceTolerance: 0.05, bits: 10, partsPerStep: 16 };
const DIVIDER: Divider = {
  upper_Ohm: 10_000,
  upperTolerance: 0.01,
  lower_Ohm: 10_000,
  lowerTolerance: 0.01,
  converter: CONVERTER,
};
const SHUNT: Shunt = {
  resistance_Ohm: 0.1,
  tolerance: 0.01,
  amplifierGain: 50,
  amplifierGainTolerance: 0.01,
  amplifierOffset_V: 0.0005,
  amplifierMargin_V: 0.02,
  converter: CONVERTER,
};

describe('a divider', () => {
  it('of equal resistors doubles the reference, less one step', () => {
    const { range, step, scale } = dividerChannel(DIVIDER);
    expect(step).toBeCloseTo(10 / 1024, 12);
    expect(range).toBeCloseTo(10 - 10 / 1024, 12);
    expect(scale).toBeCloseTo(10 / 1024 / 16, 12);
  });

  it('has one reference that is shared, and half of each resistor for its own', () => {
    // By hand: 5 %/√3; and half of 1 %/√3, twice, in squares.
    const { gain } = dividerChannel(DIVIDER);
    expect(gain.shared).toBeCloseTo(0.028868, 6);
    expect(gain.own).toBeCloseTo(0.0040825, 6);
    expect(gain.relative).toBeCloseTo(0.029155, 6);
  });

  it('is what the pin sees, what the generator feeds, and what gets warm', () => {
    expect(pinSourceResistance_Ohm(DIVIDER)).toBe(5000);
    const load = dividerLoad(DIVIDER, { voltage_V: 10, resistance_Ohm: 20 });
    expect(load.current_A).toBeCloseTo(0.0005, 12);
    expect(load.upperPower_W + load.lowerPower_W).toBeCloseTo(10 * 0.0005, 12);
    expect(load.loweredBy).toBeCloseTo(20 / 20_020, 12);
  });

  it('leaves to the clamping diodes what Kirchhoff leaves them', () => {
    // Reversed 20 V: 19.3 V over 10 kΩ, of which the lower resistor brings 0.07 mA.
    expect(clampCurrent_A(DIVIDER, 20)).toBeCloseTo(1.93e-3 - 0.07e-3, 9);
    // 30 V through 10 kΩ beside 1 kΩ: the pin stays below 5 V, reversed decides.
    const steep = { ...DIVIDER, lower_Ohm: 1000 };
    expect(clampCurrent_A(steep, 30)).toBeCloseTo(2.93e-3 - 0.7e-3, 9);
    // Nearly no upper resistor: over-range at 12 V pushes less than reversed, 11.3 V through 100 Ω.
    const bare = { ...DIVIDER, upper_Ohm: 100, lower_Ohm: 1e6 };
    expect(clampCurrent_A(bare, 12)).toBeCloseTo(0.113 - 0.7e-6, 9);
  });
});

describe('a shunt', () => {
  it('ends where the amplifier does, at both ends', () => {
    const { range, floor, step } = shuntChannel(SHUNT);
    expect(step).toBeCloseTo(1 / 1024, 12);
    expect(range).toBeCloseTo((5 - 0.02) / 5, 12);
    expect(floor).toBeCloseTo(0.004, 12);
    const bare = { ...SHUNT, amplifierGain: 1, amplifierMargin_V: 0, resistance_Ohm: 5 };
    expect(shuntChannel(bare).range).toBeCloseTo(1 - 1 / 1024, 12);
    expect(shuntChannel(bare).floor).toBe(0);
  });

  it('has the offsets of converter and amplifier', () => {
    // By hand: 2 steps of 0.97656 mA, and 0.5 mV over 0.1 Ω, both by √3, in squares.
    expect(shuntChannel(SHUNT).offsetUncertainty).toBeCloseTo(
      Math.hypot(1.953125e-3, 5e-3) / Math.sqrt(3),
      9,
    );
  });

  it('takes its burden', () => {
    expect(burden(0.1, 0.3)).toEqual({
      voltage_V: expect.closeTo(0.03, 12),
      power_W: expect.closeTo(0.009, 12),
    });
  });
});

describe('a monitor', () => {
  const monitor = {
    shunt_Ohm: 0.1,
    shuntTolerance: 0.01,
    range_mV: 320,
    gainTolerance: 0.005,
  } as const;

  it('bears less voltage than its scale reaches', () => {
    expect(monitorVoltageChannel(monitor).range).toBe(26);
  });

  it('is limited by its zero at small currents', () => {
    // ±200 µV over 0.1 Ω is ±2 mA: at 10 mA that is 20 %, the gain less than 1 %.
    const { offsetUncertainty, gain } = monitorCurrentChannel(monitor);
    expect(offsetUncertainty).toBeCloseTo(0.002 / Math.sqrt(3), 12);
    expect(gain.relative).toBeLessThan(0.01);
    expect(gain.shared).toBeCloseTo(0.005 / Math.sqrt(3), 12);
  });
});

describe('preferred values', () => {
  it('are those of IEC 60063: E12 is every other of E24, each near the geometric series', () => {
    expect(PREFERRED.E24.filter((_, i) => i % 2 === 0)).toEqual(PREFERRED.E12);
    // 10^(i/24) in two digits; the standard departs from it by at most 5 % (33 for 31.6).
    PREFERRED.E24.forEach((value, i) => {
      expect(Math.abs(value / 10 / 10 ** (i / 24) - 1)).toBeLessThan(0.05);
    });
    expect(PREFERRED.E24).toHaveLength(24);
  });

  it('are found across decades, as the nearest doubles', () => {
    expect(preferredBetween('E12', 0.82, 12)).toEqual([
      0.82, 1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2, 10, 12,
    ]);
    expect(preferredAtMost('E12', 0.333)).toBe(0.33);
    expect(preferredAtMost('E24', 1)).toBe(1);
  });

  it('at most: never more, and the next one up always is', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (value) => {
        for (const series of ['E12', 'E24'] as const) {
          const found = preferredAtMost(series, value);
          expect(found).toBeLessThanOrEqual(value);
          const next = preferredBetween(series, found * 1.001, found * 1.3)[0] ?? Number.NaN;
          expect(next).toBeGreaterThan(value);
        }
      }),
    );
  });

  it('make a divider that holds the range, suits the converter, and is not much larger', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 30, noNaN: true }), (wanted_V) => {
        const found = preferredDivider('E24', wanted_V, CONVERTER);
        if (found === null) throw new Error('nothing found');
        const divider = { ...DIVIDER, ...found };
        const { range } = dividerChannel(divider);
        expect(range).toBeGreaterThanOrEqual(wanted_V);
        expect(range).toBeLessThan(Math.max(wanted_V * 1.08, 5.7));
        expect(pinSourceResistance_Ohm(divider)).toBeLessThanOrEqual(SOURCE_LIMIT_OHM);
        expect(clampCurrent_A(divider, 30)).toBeLessThan(3e-3);
      }),
    );
  });

  it('for 9 V at 5 V: 10 kΩ over 12 kΩ', () => {
    // By hand: 5 V · 22/12 = 9.17 V, less a step of 8.95 mV.
    expect(preferredDivider('E12', 9, CONVERTER)).toEqual({ upper_Ohm: 10_000, lower_Ohm: 12_000 });
  });
});

describe('a calibration', () => {
  const read = (value: number, resolution = 0.01) => ({ value, resolution });
  const accuracy = { relative: 0, counts: 0 };

  it('finds gain and offset, on top of what the sketch applies', () => {
    // The board shows (meter − 0.1)/1.25.
    const points = [0.1, 2.6, 5.1].map((meter) => ({
      meter: read(meter),
      page: read((meter - 0.1) / 1.25),
    }));
    const fresh = calibrate({ accuracy, present: { gain: 1, offset: 0 }, points });
    expect(fresh?.gain).toBeCloseTo(1.25, 12);
    expect(fresh?.offset).toBeCloseTo(0.1, 12);
    const again = calibrate({ accuracy, present: { gain: 0.8, offset: 0.2 }, points });
    expect(again?.gain).toBeCloseTo(1, 12);
    expect(again?.offset).toBeCloseTo(1.25 * 0.2 + 0.1, 12);
  });

  it('trusts a reading with more digits more', () => {
    const points = [
      { meter: read(0, 0.0001), page: read(0, 0.0001) },
      { meter: read(1, 0.0001), page: read(1, 0.0001) },
      { meter: read(2.1, 0.1), page: read(2, 0.0001) },
    ];
    const found = calibrate({ accuracy, present: { gain: 1, offset: 0 }, points });
    expect(found?.gain).toBeCloseTo(1, 4);
  });

  it('says nothing where there is no line, or a falling one', () => {
    const at = (meter: number, page: number) => ({ meter: read(meter), page: read(page) });
    const present = { gain: 1, offset: 0 };
    expect(calibrate({ accuracy, present, points: [at(1, 2), at(1.1, 2)] })).toBeNull();
    expect(calibrate({ accuracy, present, points: [at(1, 2), at(2, 1)] })).toBeNull();
  });
});
