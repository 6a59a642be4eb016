/**
 * The ripple that a commutator leaves in the voltage of a plateau: lines of its spectrum that stand
 * out of the noise, whatever made them. What of them is the rotor's is for `speed-of-trial` to say.
 */
import { z } from 'zod';
import { meanOf, standardDeviationOf } from '../../metrology/type-a/series.ts';
import { binsLookedAt, linesIn, type Line } from './lines.ts';
import { averagedSpectrum, type Spectrum } from './spectrum.ts';

export const RippleSchema = z.object({
  sampleRate_Hz: z.number(),
  /** Lines between 0 and half the rate, the strongest first; none: nothing stands out. */
  lines: z
    .array(
      z.object({
        frequency_Hz: z.number(),
        /** Of its mean over the plateau. */
        standardUncertainty_Hz: z.number(),
        amplitude_V: z.number(),
      }),
    )
    .readonly(),
  /** The readings never changed by less; they changed by no more than one of these. */
  isBelowStep: z.boolean(),
});
export type Ripple = Readonly<z.infer<typeof RippleSchema>>;

/** Noise alone has a line in at most one of so many trials. */
export const FALSE_LINE_LEVEL = 0.001;
const MOST_LINES = 3;
/** Segments of about a second: so fast a rotor hardly changes its speed. */
const SEGMENT_S = 1;
const SHORTEST_SEGMENT = 128;
const LONGEST_SEGMENT = 4096;
/** A quarter as long: for a speed that wanders by per cent. */
const SHORTER = 4;
const PLAIN = 0.001;
const FEWEST_SEGMENTS = 2.5;
const PARTS = 4;

/**
 * @param values voltages at equal intervals, V
 * @returns null where there are too few
 */
export function rippleIn(
  values: Float64Array,
  sampleRate_Hz: number,
  level = FALSE_LINE_LEVEL,
): Ripple | null {
  const size = segmentFor(values.length, sampleRate_Hz);
  if (size === null) return null;
  const sizes = [size, size / SHORTER].filter((one) => one >= SHORTEST_SEGMENT);
  const spectra = sizes.map((one) => averagedSpectrum(values, one));
  const tests = spectra.reduce((sum, one) => sum + binsLookedAt(one), 0);
  const found = spectra.map((spectrum) => ({ spectrum, lines: linesIn(spectrum, level, tests) }));
  // The longer segments place a line better; where they show it poorly, it wanders.
  const isPlain = surest(found[0]!.lines) < PLAIN * level;
  const { spectrum, lines } = isPlain
    ? found[0]!
    : found.reduce((a, b) => (surest(b.lines) < surest(a.lines) ? b : a));
  return {
    sampleRate_Hz,
    lines: lines.slice(0, MOST_LINES).map((line) => ({
      frequency_Hz: (line.bin * sampleRate_Hz) / spectrum.size,
      standardUncertainty_Hz: spreadOf(values, line, spectrum, sampleRate_Hz),
      amplitude_V: Math.sqrt(line.power),
    })),
    isBelowStep: lines.length === 0 && hardlyChanges(values),
  };
}

function surest(lines: readonly Line[]): number {
  return Math.min(1, ...lines.map(({ chance }) => chance));
}

/** The power of two nearest to a second, but some of them must go into the stretch. */
function segmentFor(count: number, sampleRate_Hz: number): number | null {
  const most = Math.min(count / FEWEST_SEGMENTS, LONGEST_SEGMENT);
  const wanted = 2 ** Math.round(Math.log2(SEGMENT_S * sampleRate_Hz));
  const size = Math.max(Math.min(wanted, 2 ** Math.floor(Math.log2(most))), SHORTEST_SEGMENT);
  return size <= most ? size : null;
}

/**
 * Of the line's mean frequency: by the scatter from quarter to quarter of the stretch, since a
 * rotor's speed a second ago is much the same as now (batch means).
 */
function spreadOf(
  values: Float64Array,
  { bin }: Line,
  { size }: Spectrum,
  sampleRate_Hz: number,
): number {
  const length = Math.floor(values.length / PARTS);
  const partSize = Math.min(size, 2 ** Math.floor(Math.log2(length)));
  const near = (bin * partSize) / size;
  const centres = Array.from({ length: PARTS }, (_, part) => {
    const quarter = values.subarray(part * length, (part + 1) * length);
    const { powers } = averagedSpectrum(quarter, partSize);
    return centreNear(powers, near);
  });
  const scatter = standardDeviationOf(centres) / Math.sqrt(PARTS);
  return (Math.max(scatter, LEAST_BINS) * sampleRate_Hz) / partSize;
}

/** No line is placed better than this share of a bin. */
const LEAST_BINS = 0.02;
const NEAR = 4;

function centreNear(powers: Float64Array, near: number): number {
  const from = Math.max(Math.round(near) - NEAR, 1);
  const to = Math.min(Math.round(near) + NEAR, powers.length - 1);
  const part = powers.subarray(from, to + 1);
  const floor = meanOf(Array.from(part).sort((a, b) => a - b).slice(0, NEAR));
  let [sum, moment] = [0, 0];
  part.forEach((power, i) => {
    const above = Math.max(power - 2 * floor, 0);
    sum += above;
    moment += above * (from + i);
  });
  return sum > 0 ? moment / sum : near;
}

/** What is smaller than a step of the readings can't be in them, unless noise carries it over. */
function hardlyChanges(values: Float64Array): boolean {
  const step = leastStep(values);
  if (step === 0) return true;
  const half = values.length >> 1;
  const deviations = [values.subarray(0, half), values.subarray(half)].map(standardDeviationOf);
  return Math.max(...deviations) < step / 2;
}

/** The least by which one reading differs from the next; 0 where none does. */
function leastStep(values: Float64Array): number {
  let least = Infinity;
  for (let i = 1; i < values.length; i++) {
    const hop = Math.abs(values[i]! - values[i - 1]!);
    if (hop > 1e-12 && hop < least) least = hop;
  }
  return least === Infinity ? 0 : least;
}
