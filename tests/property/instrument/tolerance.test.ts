/**
 * Propagated uncertainties against simulation: parts drawn from their tolerances by a seeded
 * generator (the method of JCGM 101:2008, propagation of distributions by Monte Carlo).
 */
import { describe, expect, it } from 'vitest';
import { dividerChannel, type Divider } from '#core/instrument/divider.ts';
import { calibrate, type Indication } from '#core/instrument/meter-comparison.ts';
import { shuntChannel, type Shunt } from '#core/instrument/shunt.ts';
import { powerUncertainty } from '#core/instrument/tolerance.ts';
import { between, createRandom } from '#core/virtual-rig/random.ts';

const DRAWS = 20_000;
/** A standard deviation from 20 000 draws is good to 0.5 %; six times that. */
const AGREEMENT = 0.03;

function relativeDeviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1)) / mean;
}

const CONVERTER = { reference_V: 5, referenceTolerance: 0.05, bits: 10, partsPerStep: 16 };

/** Designs that differ in which part is the worst. */
const DIVIDERS: readonly Divider[] = [
  { upper_Ohm: 10e3, upperTolerance: 0.01, lower_Ohm: 10e3, lowerTolerance: 0.01 },
  { upper_Ohm: 1e3, upperTolerance: 0.05, lower_Ohm: 10e3, lowerTolerance: 0.05 },
  { upper_Ohm: 47e3, upperTolerance: 0.05, lower_Ohm: 4.7e3, lowerTolerance: 0.01 },
].flatMap((resistors) => [
  { ...resistors, converter: CONVERTER },
  { ...resistors, converter: { ...CONVERTER, referenceTolerance: 0.001 } },
]);

const SHUNTS: readonly Shunt[] = [
  [0.01, 0.01],
  [0.05, 0.001],
  [0.001, 0.05],
].map(([tolerance = 0, amplifierGainTolerance = 0]) => ({
  resistance_Ohm: 0.1,
  tolerance,
  amplifierGain: 50,
  amplifierGainTolerance,
  amplifierOffset_V: 0,
  amplifierMargin_V: 0,
  converter: CONVERTER,
}));

/** As built: every part somewhere within its tolerance. */
function drawDivider(divider: Divider, reference_V: number, within: Within): number {
  const { upper_Ohm, upperTolerance, lower_Ohm, lowerTolerance, converter } = divider;
  return dividerChannel({
    ...divider,
    upper_Ohm: within(upper_Ohm, upperTolerance),
    lower_Ohm: within(lower_Ohm, lowerTolerance),
    converter: { ...converter, reference_V },
  }).scale;
}

function drawShunt(shunt: Shunt, reference_V: number, within: Within): number {
  return shuntChannel({
    ...shunt,
    resistance_Ohm: within(shunt.resistance_Ohm, shunt.tolerance),
    amplifierGain: within(shunt.amplifierGain, shunt.amplifierGainTolerance),
    converter: { ...shunt.converter, reference_V },
  }).scale;
}

type Within = (value: number, tolerance: number) => number;

function createWithin(seed: number): Within {
  const random = createRandom(seed);
  return (value, tolerance) => value * (1 + between(random, -tolerance, tolerance));
}

function draw(seed: number, one: (within: Within) => number): number[] {
  const within = createWithin(seed);
  return Array.from({ length: DRAWS }, () => one(within));
}

describe('the gain of a channel', () => {
  it.each(DIVIDERS.map((divider, i) => [i, divider] as const))('divider %i', (i, divider) => {
    const { reference_V, referenceTolerance } = divider.converter;
    const drawn = draw(100 + i, (within) =>
      drawDivider(divider, within(reference_V, referenceTolerance), within),
    );
    const { gain } = dividerChannel(divider);
    expect(Math.abs(relativeDeviation(drawn) / gain.relative - 1)).toBeLessThan(AGREEMENT);
    expect(Math.hypot(gain.shared, gain.own)).toBeCloseTo(gain.relative, 12);
  });

  it.each(SHUNTS.map((shunt, i) => [i, shunt] as const))('shunt %i', (i, shunt) => {
    const { reference_V, referenceTolerance } = shunt.converter;
    const drawn = draw(200 + i, (within) =>
      drawShunt(shunt, within(reference_V, referenceTolerance), within),
    );
    const { gain } = shuntChannel(shunt);
    expect(Math.abs(relativeDeviation(drawn) / gain.relative - 1)).toBeLessThan(AGREEMENT);
  });
});

describe('power from both channels', () => {
  const [divider] = DIVIDERS;
  const [shunt] = SHUNTS;
  if (divider === undefined || shunt === undefined) throw new Error('no design');
  const voltage = dividerChannel(divider).gain;
  const current = shuntChannel(shunt).gain;

  it('is as uncertain as with one reference for both', () => {
    const drawn = draw(300, (within) => {
      const reference_V = within(5, 0.05);
      return drawDivider(divider, reference_V, within) * drawShunt(shunt, reference_V, within);
    });
    const propagated = powerUncertainty(voltage, current);
    expect(Math.abs(relativeDeviation(drawn) / propagated - 1)).toBeLessThan(AGREEMENT);
  });

  it('would look better than it is if the reference were taken twice as independent', () => {
    const naive = Math.hypot(voltage.relative, current.relative);
    expect(powerUncertainty(voltage, current) / naive).toBeGreaterThan(1.3);
  });
});

describe('a calibration against a meter', () => {
  const accuracy = { relative: 0.005, counts: 2 };
  const TRUE_VALUES = [0.3, 1.1, 1.9, 2.7, 3.5];
  const shown = (value: number, resolution: number): Indication => ({
    value: Math.round(value / resolution) * resolution,
    resolution,
  });

  /** What the calibration makes of a board that is off by 2 % and 30 mV, and a meter off as it may. */
  function errors(seed: number) {
    const random = createRandom(seed);
    const within = (limit: number): number => between(random, -limit, limit);
    return Array.from({ length: 4000 }, () => {
      const meterGain = 1 + within(accuracy.relative);
      const meterOffset = within(accuracy.counts * 0.01);
      const start = between(random, 0, 0.1);
      const points = TRUE_VALUES.map((value) => ({
        meter: shown(meterGain * (value + start) + meterOffset, 0.01),
        page: shown((value + start - 0.03) / 1.02, 0.001),
      }));
      const found = calibrate({ accuracy, present: { gain: 1, offset: 0 }, points });
      if (found === null) throw new Error('no calibration');
      return {
        gain: (found.gain - 1.02) / found.gainUncertainty,
        offset: (found.offset - 0.03) / found.offsetUncertainty,
      };
    });
  }

  it('is off by what it says: neither rosier nor much gloomier', () => {
    const found = errors(7);
    const rms = (of: (one: { gain: number; offset: number }) => number): number =>
      Math.sqrt(found.reduce((sum, one) => sum + of(one) ** 2, 0) / found.length);
    expect(rms(({ gain }) => gain)).toBeGreaterThan(0.85);
    expect(rms(({ gain }) => gain)).toBeLessThan(1.03);
    expect(rms(({ offset }) => offset)).toBeGreaterThan(0.85);
    expect(rms(({ offset }) => offset)).toBeLessThan(1.03);
  });

  it('does not get below the accuracy of the meter, however many points', () => {
    const points = Array.from({ length: 12 }, (_, i) => ({
      meter: shown(0.3 * i, 0.001),
      page: shown(0.3 * i, 0.001),
    }));
    const found = calibrate({ accuracy, present: { gain: 1, offset: 0 }, points });
    expect(found?.gainUncertainty).toBeGreaterThan(accuracy.relative / Math.sqrt(3));
    expect(found?.offsetUncertainty).toBeGreaterThan((accuracy.counts * 0.001) / Math.sqrt(3));
  });
});
