/** From the components of an uncertainty to the combined one. */

/** What one cause adds to a result, |c_i|·u(x_i), in the result's unit. */
export interface Component {
  readonly u: number;
  /** How well `u` itself is known; Infinity where it follows from limits (GUM, G.4.3). */
  readonly degreesOfFreedom: number;
}

/** Stands for endless: Student's factor is then that of the normal law to a part in a million. */
export const MOST_DEGREES_OF_FREEDOM = 1e6;

/**
 * Independent components: the squares add up (JCGM 100:2008 (GUM), 5.1.2), and the effective
 * degrees of freedom are those of Welch and Satterthwaite, u⁴ / Σ(u_i⁴/ν_i) (GUM, G.4.1), at most
 * MOST_DEGREES_OF_FREEDOM.
 */
export function combine(components: readonly Component[]): Component {
  const u = Math.hypot(...components.map((one) => one.u));
  // Shares instead of fourth powers, which would run out of range for small units.
  const doubt = components.reduce(
    (sum, one) => sum + (u > 0 ? (one.u / u) ** 4 / one.degreesOfFreedom : 0),
    0,
  );
  return { u, degreesOfFreedom: Math.min(1 / doubt, MOST_DEGREES_OF_FREEDOM) };
}
