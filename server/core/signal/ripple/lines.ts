/**
 * Lines that stand out of the noise of a spectrum. Each bin is held against others beside it, those
 * on the side where there is more: noise of any colour is flat over so few bins, and a slope makes
 * lines rarer, not more frequent. With even noise the ratio follows an F law, of which the tail,
 * times the number of bins looked at (Bonferroni), is at least the chance that noise alone has one
 * such line anywhere: cell averaging at a constant rate of false alarms (H. M. Finn, R. S. Johnson,
 * RCA Review 29 (1968) 414; from memory).
 */
import { fUpperTail } from '../../statistics/f.ts';
import type { Spectrum } from './spectrum.ts';

export interface Line {
  /** In bins, between them too. */
  readonly bin: number;
  /** Power above the noise, V²: of a sinusoid, its squared amplitude. */
  readonly power: number;
  /** At most the probability that noise alone has one like it anywhere. */
  readonly chance: number;
}

/** Bins beside a line that it may reach into itself: Hann's window is four bins wide. */
const GUARD = 4;
/** Every second one: through that window they hardly depend on each other. */
const STRIDE = 2;
const BESIDE = 8;
/** Nearer to 0 there are no bins enough below, and gusts are. */
const FIRST_BIN = GUARD + STRIDE * (BESIDE - 1) + 1;
/** Powers of a sinusoid in Hann's window add up to so many times its squared amplitude. */
const SPREAD = 1.5;
const LEAST_REACH = 2;
/** A rotor's speed wanders by about so much while it is called steady. */
const WANDER = 0.01;

/** How many bins are looked at. */
export function binsLookedAt({ size }: Pick<Spectrum, 'size'>): number {
  return Math.max(size / 2 - FIRST_BIN, 0);
}

/**
 * Lines with a chance of at most `level`, the strongest first.
 * @param tests all bins looked at, where more than one spectrum is made of the same readings
 */
export function linesIn(spectrum: Spectrum, level: number, tests: number): Line[] {
  const { powers, independent } = spectrum;
  const freedom = { df1: 2 * independent, df2: 2 * independent * BESIDE };
  const lines: Line[] = [];
  for (let bin = FIRST_BIN; bin < powers.length - 1; bin++) {
    const power = powers[bin]!;
    if (power < powers[bin - 1]! || power <= powers[bin + 1]!) continue;
    const noise = noiseBeside(powers, bin);
    if (!(power > noise) || noise === 0) continue;
    const chance = Math.min(tests * fUpperTail(power / noise, freedom), 1);
    if (chance <= level) lines.push(refined(powers, bin, noise, chance));
  }
  return withoutShoulders(lines.sort((a, b) => b.power - a.power));
}

/** Mean power of the bins beside, on the side where there is more. */
function noiseBeside(powers: Float64Array, bin: number): number {
  return Math.max(meanOnSide(powers, bin, -1), meanOnSide(powers, bin, 1));
}

/** 0 beyond half the sample rate, where there is nothing: then the other side tells. */
function meanOnSide(powers: Float64Array, bin: number, side: 1 | -1): number {
  const outermost = bin + side * (GUARD + STRIDE * (BESIDE - 1));
  if (outermost < 1 || outermost > powers.length - 2) return 0;
  let sum = 0;
  for (let i = 0; i < BESIDE; i++) sum += powers[bin + side * (GUARD + STRIDE * i)]!;
  return sum / BESIDE;
}

/** To a fraction of a bin: the centre of what is above the noise. */
function refined(powers: Float64Array, bin: number, noise: number, chance: number): Line {
  const reach = Math.max(LEAST_REACH, Math.round(WANDER * bin));
  let sum = 0;
  let moment = 0;
  for (let at = bin - reach; at <= Math.min(bin + reach, powers.length - 1); at++) {
    const above = Math.max(powers[at]! - noise, 0);
    sum += above;
    moment += above * at;
  }
  return { bin: moment / sum, power: sum / SPREAD, chance };
}

/** A line wanders, and has shoulders: what lies within its reach is no line of its own. */
function withoutShoulders(lines: readonly Line[]): Line[] {
  return lines.filter((line, place) => {
    const reach = Math.max(2 * GUARD, 4 * WANDER * line.bin);
    return !lines.slice(0, place).some(({ bin }) => Math.abs(bin - line.bin) <= reach);
  });
}
