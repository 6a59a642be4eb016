import { describe, expect, it } from 'vitest';
import { advanceAnemometer, createAnemometer } from '#core/virtual-rig/anemometer.ts';
import { convert, createConverter, type ConverterParameters } from '#core/virtual-rig/converter.ts';
import { createPlant, type Plant } from '#core/virtual-rig/plant.ts';
import { createRandom } from '#core/virtual-rig/random.ts';
import { plantWith, STILL_AIR } from './example-rig.ts';

describe('anemometer', () => {
  it('counts whole pulses: readings are whole steps whose mean is the wind', () => {
    const anemometer = createAnemometer({
      kind: 'pulses',
      windPerPulse_m: 0.3,
      gate_s: 0.5,
      lag_s: 0.2,
    });
    const readings: number[] = [];
    for (let i = 0; i < 100_000; i++) {
      advanceAnemometer(anemometer, 4.1, 0.005);
      if (i > 2000) readings.push(anemometer.reading_mps);
    }
    // One pulse in half a second is 0.6 m/s.
    const pulses = readings.map((reading) => reading / 0.6);
    for (const count of pulses) expect(Math.abs(count - Math.round(count))).toBeLessThan(1e-9);
    expect(new Set(pulses.map(Math.round))).toEqual(new Set([6, 7]));
    expect(readings.reduce((sum, reading) => sum + reading, 0) / readings.length).toBeCloseTo(
      4.1,
      1.5,
    );
  });

  it('keeps one reading for the whole gate', () => {
    const anemometer = createAnemometer({
      kind: 'pulses',
      windPerPulse_m: 0.01,
      gate_s: 1,
      lag_s: 0.2,
    });
    let changes = 0;
    let last = 0;
    for (let i = 1; i <= 2000; i++) {
      advanceAnemometer(anemometer, 0.001 * i, 0.005);
      if (anemometer.reading_mps !== last) changes += 1;
      last = anemometer.reading_mps;
    }
    expect(changes).toBe(10);
  });

  it('reads in steps when analogue, with its lag', () => {
    const anemometer = createAnemometer({ kind: 'analogue', step_mps: 0.05, lag_s: 0.5 });
    for (let i = 0; i < 100; i++) advanceAnemometer(anemometer, 4, 0.005);
    // A first-order lag after one time constant: 1 - 1/e.
    expect(anemometer.reading_mps).toBeCloseTo(4 * (1 - Math.exp(-1)), 1);
    const steps = anemometer.reading_mps / 0.05;
    expect(steps).toBeCloseTo(Math.round(steps), 9);
  });
});

const PARAMETERS: ConverterParameters = {
  voltageStep_V: 0.1,
  voltageOffset_V: 0,
  voltageRange_V: 5,
  currentStep_A: 0.001,
  noise_steps: 0,
  spikeRate_Hz: 0,
  spikeSize: 1,
  dropoutRate_Hz: 0,
  dropoutLongest_s: 0.5,
  dropoutAs: 'missing',
};

function plantAt(voltage_V: number): Plant {
  const parameters = plantWith(STILL_AIR);
  const generator = { ...parameters.generator, ripple: 0 };
  const plant = createPlant({ ...parameters, generator }, 30, 0.005, null);
  plant.voltage_V = voltage_V;
  plant.current_A = voltage_V / 100;
  return plant;
}

function readMany(change: Partial<ConverterParameters>, plant = plantAt(2)): (number | null)[] {
  const converter = createConverter({ ...PARAMETERS, ...change }, createRandom(4));
  return Array.from({ length: 50_000 }, (_, i) => convert(converter, plant, i / 50).voltage_V);
}

describe('converter', () => {
  it('rounds to whole steps, adds its offset, stops at full scale and at zero', () => {
    const read = (voltage_V: number, change: Partial<ConverterParameters> = {}) =>
      convert(createConverter({ ...PARAMETERS, ...change }, createRandom(4)), plantAt(voltage_V), 0)
        .voltage_V;
    expect(read(2.04)).toBeCloseTo(2, 12);
    expect(read(2.06)).toBeCloseTo(2.1, 12);
    expect(read(2, { voltageOffset_V: 0.2 })).toBeCloseTo(2.2, 12);
    expect(read(7)).toBeCloseTo(5, 12);
    expect(read(0, { voltageOffset_V: -0.3 })).toBe(0);
  });

  it('spikes about as often as asked, some up, some down', () => {
    const values = readMany({ spikeRate_Hz: 0.5 });
    const up = values.filter((value) => value! > 2.05).length;
    const down = values.filter((value) => value! < 1.95).length;
    // 500 expected in 1000 s; standard deviation about 22.
    expect(up + down).toBeGreaterThan(400);
    expect(up + down).toBeLessThan(600);
    expect(Math.min(up, down)).toBeGreaterThan(150);
  });

  it('drops out as missing or as zero', () => {
    const missing = readMany({ dropoutRate_Hz: 0.2 });
    const zero = readMany({ dropoutRate_Hz: 0.2, dropoutAs: 'zero' });
    expect(missing.filter((value) => value === null).length).toBeGreaterThan(1000);
    expect(missing.includes(0)).toBe(false);
    expect(zero.filter((value) => value === 0).length).toBe(
      missing.filter((value) => value === null).length,
    );
  });

  it('ripples by the given share about the mean', () => {
    const plant = plantAt(2);
    const rippling = { ...plant.parameters.generator, ripple: 0.05, ripplesPerTurn: 10 };
    const parameters = { ...plant.parameters, generator: rippling };
    const converter = createConverter({ ...PARAMETERS, voltageStep_V: 1e-6 }, createRandom(4));
    const values = Array.from({ length: 1000 }, (_, i) => {
      const turned = { ...plant, parameters, rotorAngle_rad: (2 * Math.PI * i) / 1000 };
      return convert(converter, turned, 0).voltage_V!;
    });
    expect(Math.max(...values)).toBeCloseTo(2.1, 4);
    expect(Math.min(...values)).toBeCloseTo(1.9, 4);
    expect(values.reduce((sum, value) => sum + value, 0) / 1000).toBeCloseTo(2, 5);
  });
});
