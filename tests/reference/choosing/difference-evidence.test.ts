import { describe, expect, it } from 'vitest';
import {
  differenceEvidence,
  evidentT,
  PRIOR_VARIANCE,
} from '#core/experiment/choosing/difference-evidence.ts';

describe('differenceEvidence', () => {
  // The definition by numerical integration, SciPy 1.17.1 (integrate.quad): the noncentral t density
  // nct.pdf(t, ν, δ/√c), averaged over δ half-normal with variance 25, over t.pdf(t, ν).
  const INTEGRATED: readonly [t: number, variance: number, nu: number, above: number, below: number][] = [
    [2.5, 1, 4, 3.4834225, 0.079774703],
    [0.5, 2 / 3, 8, 0.25570995, 0.11314175],
    [-1.2, 2 / 3, 8, 0.080334502, 0.58440709],
    [6, 0.4, 12, 1523.0451, 0.031000229],
    [3, 0.25, 28, 10.786816, 0.027370897],
    [0, 0.5, 3, 0.14002801, 0.14002801],
  ];
  it.each(INTEGRATED)('is the ratio by numerical integration: t %d, c %d, nu %d', (t, variance, nu, above, below) => {
    const found = differenceEvidence({ t, variance, degreesOfFreedom: nu });
    expect(found.above / above).toBeCloseTo(1, 6);
    expect(found.below / below).toBeCloseTo(1, 6);
  });

  // H. Robbins, Ann. Math. Stat. 41 (1970) 1397: the two-sided mixture for a known scatter,
  // √a·exp((1 − a)z²/2) with a = c/(c + g). From memory.
  it('becomes the normal mixture when the scatter is known', () => {
    for (const [z, variance] of [[0, 1], [1.5, 0.5], [4, 0.2], [-5, 2]] as const) {
      const { above, below } = differenceEvidence({ t: z, variance, degreesOfFreedom: 1e8 });
      const a = variance / (variance + PRIOR_VARIANCE);
      const mixture = Math.sqrt(a) * Math.exp(((1 - a) * z * z) / 2);
      expect((above + below) / 2 / mixture).toBeCloseTo(1, 5);
    }
  });

  // M. Gönen, W. O. Johnson, Y. Lu, P. H. Westfall, The Bayesian two-sample t test, Am. Stat. 59
  // (2005) 252: the ratio of a t density of scale √(1 + g/c) to the standard one. From memory.
  it('has the two-sided ratio of the Bayesian two-sample t test', () => {
    const density = (t: number, nu: number): number => (1 + (t * t) / nu) ** (-(nu + 1) / 2);
    for (const [t, variance, nu] of [[0.3, 1, 4], [2.2, 0.5, 9], [-7, 0.25, 3]] as const) {
      const { above, below } = differenceEvidence({ t, variance, degreesOfFreedom: nu });
      const scale = Math.sqrt(1 + PRIOR_VARIANCE / variance);
      const ratio = density(t / scale, nu) / scale / density(t, nu);
      expect((above + below) / 2 / ratio).toBeCloseTo(1, 10);
    }
  });
});

describe('evidentT', () => {
  it('is where the evidence reaches what is asked', () => {
    const student = { variance: 2 / 3, degreesOfFreedom: 8 };
    const t = evidentT(400, student);
    expect(differenceEvidence({ ...student, t }).above / 400).toBeCloseTo(1, 9);
  });

  it('is endless where no difference could show it', () => {
    expect(evidentT(400, { variance: 2, degreesOfFreedom: 1 })).toBe(Infinity);
    expect(evidentT(40, { variance: 2, degreesOfFreedom: 0 })).toBe(Infinity);
  });
});
