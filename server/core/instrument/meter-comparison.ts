/**
 * Calibration of a channel against a multimeter: from pairs of readings taken at the same moment
 * to the gain and offset that make the board agree with the meter, and how well they are known.
 *
 * A meter's accuracy is given as ±(% of reading + counts of its last digit), as limits. The part
 * in per cent is wrong by the same share at every point, the counts mostly by the same amount:
 * taking more points does not average them away. So the line is fitted with what differs from
 * point to point (the last digits of meter and page), and the meter's limits are added to gain and
 * offset afterwards (JCGM 100:2008 (GUM), 5.2.4, F.1.2.3: one instrument's readings are correlated).
 *
 * Gain and offset of one line are correlated too, but a `$channel` line can't say it. For readings
 * of the sign of those compared the correlation is negative, so leaving it out overstates.
 */
import { fitLine, type LineFit } from './line-fit.ts';
import { ofStep, rectangular } from './tolerance.ts';

export interface MeterAccuracy {
  /** ± part of the reading, as a fraction. */
  readonly relative: number;
  /** ± so many counts of the last digit. */
  readonly counts: number;
}

/** A number as it was read, with the worth of its last digit: 2.30 was read to 0.01. */
export interface Indication {
  readonly value: number;
  readonly resolution: number;
}

export interface ComparedPoint {
  readonly meter: Indication;
  /** What the page showed, with the calibration that the sketch had then. */
  readonly page: Indication;
}

/** value = gain · value by design + offset, as in a `$channel` line. */
export interface Correction {
  readonly gain: number;
  readonly offset: number;
}

/** Readings, resolutions and offsets in one unit. */
export interface Comparison {
  readonly accuracy: MeterAccuracy;
  /** What the sketch applied while the page was read. */
  readonly present: Correction;
  readonly points: readonly ComparedPoint[];
}

export interface Calibration extends Correction {
  /** Standard uncertainties: of the gain (a ratio), and of the offset in the readings' unit. */
  readonly gainUncertainty: number;
  readonly offsetUncertainty: number;
  readonly fit: LineFit;
}

/** ± limits of a meter's reading. For instance ±(2.5 % + 3) at 32.00 is ±0.83. */
export function meterLimit({ relative, counts }: MeterAccuracy, reading: Indication): number {
  return relative * Math.abs(reading.value) + counts * reading.resolution;
}

/** Null where two different readings are wanting, or where the page falls while the meter rises. */
export function calibrate({ accuracy, present, points }: Comparison): Calibration | null {
  // What the page's last digit hides counts as much as the slope makes of it.
  const first = fitLine(points.map((point) => linePoint(point, 1)));
  const fit = first && fitLine(points.map((point) => linePoint(point, first.slope)));
  if (fit === null || fit.slope <= 0) return null;
  const gain = fit.slope * present.gain;
  const ownGain = fit.slopeUncertainty / fit.slope;
  const coarsest = Math.max(...points.map(({ meter }) => meter.resolution));
  return {
    gain,
    offset: fit.slope * present.offset + fit.intercept,
    gainUncertainty: gain * Math.hypot(ownGain, rectangular(accuracy.relative)),
    offsetUncertainty: Math.hypot(
      fit.interceptUncertainty,
      rectangular(accuracy.counts * coarsest),
    ),
    fit,
  };
}

function linePoint({ meter, page }: ComparedPoint, slope: number) {
  const u = Math.hypot(ofStep(meter.resolution), slope * ofStep(page.resolution));
  return { x: page.value, y: meter.value, u };
}
