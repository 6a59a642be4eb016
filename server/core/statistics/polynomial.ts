/** A straight line or a parabola through points, y = b₀ + b₁x + b₂x² + …, by least squares. */
import { leastSquares, type LeastSquares } from './least-squares.ts';

export interface Polynomial extends LeastSquares {
  /** s² of the residuals; 0 where there are as many coefficients as points. */
  readonly residualVariance: number;
  /** Standard errors of the coefficients. */
  readonly errors: readonly number[];
}

export function fitPolynomial(
  x: readonly number[],
  y: readonly number[],
  degree: number,
): Polynomial {
  const powers = Array.from({ length: degree + 1 }, (_, power) => power);
  const fit = leastSquares(powers.map((power) => x.map((value) => value ** power)), y);
  const { residualSquares, residualFreedom } = fit;
  const residualVariance = residualFreedom > 0 ? residualSquares / residualFreedom : 0;
  const errors = powers.map((_, i) => {
    const unit = powers.map((power) => Number(power === i));
    return Math.sqrt(residualVariance * fit.covariance(unit, unit));
  });
  return { ...fit, residualVariance, errors };
}
