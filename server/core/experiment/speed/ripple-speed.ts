/**
 * The rotor's speed by the ripple of the voltage: so many ripples in a turn, lines of a spectrum
 * between 0 and half the sample rate. A ripple faster than that appears folded back into it
 * (sampling theorem), so a line stands for many speeds; which one is told by the generator's
 * constant, or because no rotor turns so fast in this wind.
 */
import { combine } from '../../metrology/combine.ts';
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import type { Ripple } from '../../signal/ripple/ripple.ts';

/** Why the ripple tells no speed. */
export const NO_RIPPLE_SPEED = [
  /** Too few readings, typed readings, or a trial of an earlier version. */
  'not heard',
  /** The readings do not even change by a step of the converter. */
  'below step',
  /** By the generator's constant the ripple is faster than half the sample rate, and nothing shows. */
  'rate too low',
  /** Nothing stands out of the noise. */
  'no line',
  'ripples not said',
  /** At a multiple of the mains' frequency, and nothing else tells it from hum. */
  'mains',
  /** It may be a faster ripple folded back. */
  'folded',
  /** Lines that can't all come of one turning rotor with this commutator. */
  'several',
  /** No line lies where the generator's constant has it. */
  'elsewhere',
] as const;
export type NoRippleSpeed = (typeof NO_RIPPLE_SPEED)[number];

export interface RippleQuestion {
  readonly ripple: Ripple | null;
  /** Null: nobody has said. */
  readonly ripplesPerTurn: number | null;
  /** By the generator's constant; null: it is not known. */
  readonly expected: MeasuredValue | null;
  /** Faster than any rotor of this size in this wind; null: size or wind is not known. */
  readonly fastest_radps: number | null;
}

/** A board's clock is good to so much: a rectangle of ±0.5 % (common practice, no source). */
const CLOCK = 0.005 / Math.sqrt(3);
/** Brushes take some of the voltage: the constant tells the speed no better (common practice). */
const LEAST_SHARE = 0.02;
/** So many standard uncertainties from what the constant tells is elsewhere. */
const REACH = 3;
/** Of a line's scatter from quarter to quarter of the trial. */
const FREEDOM = 3;

export function speedByRipple(question: RippleQuestion): MeasuredValue | NoRippleSpeed {
  const { ripple, ripplesPerTurn, expected } = question;
  if (ripple === null) return 'not heard';
  const { lines, sampleRate_Hz } = ripple;
  if (lines.length === 0) {
    if (ripple.isBelowStep) return 'below step';
    return isTooSlow(question) ? 'rate too low' : 'no line';
  }
  if (ripplesPerTurn === null) return 'ripples not said';
  const perTurn = ripplesPerTurn / (2 * Math.PI);
  if (expected !== null) return nearExpected(question, perTurn, expected);
  const line = commutatorsOf(lines, ripplesPerTurn, sampleRate_Hz);
  const fastest_Hz = (question.fastest_radps ?? Infinity) * perTurn;
  if (typeof line === 'string') return line;
  if (sampleRate_Hz - line.frequency_Hz <= fastest_Hz) return 'folded';
  return line.frequency_Hz > fastest_Hz ? 'elsewhere' : speedOf(line, line.frequency_Hz, perTurn);
}

type Line = Ripple['lines'][number];

/**
 * The commutator's line without a word on how fast it should be: the strongest, where all others
 * are orders of the rotation that it tells. One that is so many times the strongest as there are
 * ripples in a turn has more to say for itself: then the strongest is the turn's, of a rotor out
 * of balance.
 */
function commutatorsOf(
  lines: readonly Line[],
  ripplesPerTurn: number,
  rate_Hz: number,
): Line | 'mains' | 'several' {
  const [strongest, ...others] = lines.filter((one) => !isMains(one, rate_Hz));
  if (strongest === undefined) return 'mains';
  const isTimes = (line: Line, times: number): boolean => {
    const reach_Hz = reachOf(line, strongest, times);
    return seenAs(line, rate_Hz).some((frequency_Hz) => {
      return Math.abs(frequency_Hz - times * strongest.frequency_Hz) <= reach_Hz;
    });
  };
  const ofTheTurn = others.find((one) => ripplesPerTurn > 1 && isTimes(one, ripplesPerTurn));
  if (ofTheTurn !== undefined) return ofTheTurn;
  const turn_Hz = strongest.frequency_Hz / ripplesPerTurn;
  const isOrder = (line: Line): boolean => {
    return seenAs(line, rate_Hz).some((frequency_Hz) => {
      const order = Math.round(frequency_Hz / turn_Hz) / ripplesPerTurn;
      return isTimes(line, order) && reachOf(line, strongest, order) < CLOSE_TO_ORDER * turn_Hz;
    });
  };
  return others.every(isOrder) ? strongest : 'several';
}

/** Of the distance between two orders: nearly any line lies within half of it. */
const CLOSE_TO_ORDER = 1 / 6;

function reachOf(line: Line, strongest: Line, times: number): number {
  return REACH * Math.hypot(line.standardUncertainty_Hz, times * strongest.standardUncertainty_Hz);
}

/** Also what has been folded once. */
function seenAs({ frequency_Hz }: Line, rate_Hz: number): number[] {
  return [frequency_Hz, rate_Hz - frequency_Hz, rate_Hz + frequency_Hz];
}

/** Of all speeds that a line may stand for, the one that the constant tells. */
function nearExpected(
  { ripple }: RippleQuestion,
  perTurn: number,
  expected: MeasuredValue,
): MeasuredValue | NoRippleSpeed {
  const { lines, sampleRate_Hz } = ripple!;
  const expected_Hz = expected.value * perTurn;
  const reach_Hz = REACH * uncertaintyOf(expected) * perTurn;
  const isFolded = expected_Hz > sampleRate_Hz / 2;
  // Nearly any line would lie where so rough a constant has it.
  if (isFolded && reach_Hz > FOLDED_SHARE * sampleRate_Hz) return 'rate too low';
  const near = lines.flatMap((line) =>
    unfolded(line.frequency_Hz, sampleRate_Hz, expected_Hz + reach_Hz)
      .filter((frequency_Hz) => Math.abs(frequency_Hz - expected_Hz) <= reach_Hz)
      .map((frequency_Hz) => ({ line, frequency_Hz })),
  );
  const [first, second] = near.filter(({ line }) => !isMains(line, sampleRate_Hz));
  if (first === undefined && near.length > 0) return 'mains';
  if (first === undefined) return isFolded ? 'rate too low' : 'elsewhere';
  if (second !== undefined) return 'folded';
  return speedOf(first.line, first.frequency_Hz, perTurn);
}

/** Of the sample rate: a line that has nothing to do with the rotor then fits once in four times. */
const FOLDED_SHARE = 1 / 16;

export function uncertaintyOf({ value, standardUncertainty }: MeasuredValue): number {
  return Math.max(standardUncertainty ?? 0, LEAST_SHARE * value);
}

/** Frequencies that appear as this one, up to `most_Hz`. */
function unfolded(seen_Hz: number, rate_Hz: number, most_Hz: number): number[] {
  const found: number[] = [];
  for (let low_Hz = 0; low_Hz <= most_Hz; low_Hz += rate_Hz) {
    found.push(low_Hz + seen_Hz, low_Hz + rate_Hz - seen_Hz);
  }
  return found.filter((frequency_Hz) => frequency_Hz <= most_Hz);
}

function isTooSlow({ ripple, ripplesPerTurn, expected }: RippleQuestion): boolean {
  if (ripplesPerTurn === null || expected === null || ripple === null) return false;
  return (expected.value * ripplesPerTurn) / (2 * Math.PI) > ripple.sampleRate_Hz / 2;
}

const MAINS_Hz = [50, 60] as const;
const HARMONICS = [1, 2, 3, 4, 5, 6];
/** The mains keep their frequency to a few tenths of a per cent. */
const MAINS_SHARE = 0.003;

function isMains({ frequency_Hz, standardUncertainty_Hz }: Line, rate_Hz: number): boolean {
  const hums = MAINS_Hz.flatMap((mains_Hz) => HARMONICS.map((times) => mains_Hz * times));
  return hums.some((hum_Hz) => {
    const seen_Hz = Math.abs(hum_Hz - rate_Hz * Math.round(hum_Hz / rate_Hz));
    const reach_Hz = MAINS_SHARE * hum_Hz + REACH * standardUncertainty_Hz;
    return Math.abs(seen_Hz - frequency_Hz) <= reach_Hz;
  });
}

function speedOf(
  { standardUncertainty_Hz }: Line,
  frequency_Hz: number,
  perTurn: number,
): MeasuredValue {
  const value = frequency_Hz / perTurn;
  const { u, degreesOfFreedom } = combine([
    { u: standardUncertainty_Hz / perTurn, degreesOfFreedom: FREEDOM },
    { u: CLOCK * value, degreesOfFreedom: Infinity },
  ]);
  return { value, standardUncertainty: u, degreesOfFreedom };
}
