/**
 * How much of the momentum is exchanged near the ends of the blades, where air slips round them:
 * L. Prandtl's approximation (appendix to A. Betz, Göttinger Nachrichten, 1919; from memory).
 */

interface Exponents {
  readonly tipExponent: number;
  readonly hubExponent: number;
}

/** (B/2) (R − r)/r and (B/2) (r − r_h)/r_h; the loss factor divides them by sin φ. */
export function endExponents(
  blades: number,
  { radius, tip, hub }: { readonly radius: number; readonly tip: number; readonly hub: number },
): Exponents {
  return {
    tipExponent: ((blades / 2) * (tip - radius)) / radius,
    hubExponent: ((blades / 2) * (radius - hub)) / hub,
  };
}

/** F = F_tip · F_hub, above 0 and at most 1. */
export function lossFactor({ tipExponent, hubExponent }: Exponents, sineOfInflow: number): number {
  return oneEnd(tipExponent / sineOfInflow) * oneEnd(hubExponent / sineOfInflow);
}

function oneEnd(exponent: number): number {
  // Beyond 40 it differs from 1 by less than a double can hold; beyond 12 the arc's cosine is a line.
  if (exponent > 40) return 1;
  const near = Math.exp(-exponent);
  return exponent > 12 ? 1 - (2 / Math.PI) * near : (2 / Math.PI) * Math.acos(near);
}
