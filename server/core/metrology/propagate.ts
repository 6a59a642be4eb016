/**
 * Law of propagation of uncertainty for any number of inputs and results:
 *
 *     U_y = C · U_x · Cᵀ,  C_ji = ∂f_j/∂x_i
 *
 * (JCGM 100:2008 (GUM), 5.2.2, equation 13, for one result; JCGM 102:2011, 6.2, for several.) For
 * instance power from a voltage and a current that were read together is
 * `propagate({ values: [v, i], covariance, model: ([v, i]) => [v * i] })`.
 */

export type Model = (values: readonly number[]) => readonly number[];
/** Rows of a symmetric matrix. */
export type Matrix = readonly (readonly number[])[];

export interface Propagation {
  readonly values: readonly number[];
  /** Covariances of the inputs; their variances in the diagonal. */
  readonly covariance: Matrix;
  readonly model: Model;
  /** ∂f_j/∂x_i, a row a result; worked out from the model where it is not given. */
  readonly sensitivities?: (values: readonly number[]) => Matrix;
}

export interface Propagated {
  readonly values: readonly number[];
  readonly standardUncertainties: readonly number[];
  readonly covariance: Matrix;
  readonly sensitivities: Matrix;
}

/** @throws RangeError where covariance and values differ in size */
export function propagate({ values, covariance, model, sensitivities }: Propagation): Propagated {
  const n = values.length;
  if (covariance.length !== n || covariance.some((row) => row.length !== n)) {
    throw new RangeError(`${n} values need as many rows and columns of covariances`);
  }
  const C = sensitivities?.(values) ?? differentiate(model, values, deviations(covariance));
  const U = C.map((a) => C.map((b) => quadratic(a, covariance, b)));
  return {
    values: model(values),
    standardUncertainties: deviations(U),
    covariance: U,
    sensitivities: C,
  };
}

/**
 * Share of each input in the variance of the first result, for inputs that do not depend on each
 * other.
 */
export function sharesOf(
  { sensitivities, standardUncertainties }: Propagated,
  inputs: Matrix,
): number[] {
  const total = standardUncertainties[0] ?? 0;
  return inputs.map((row, i) => {
    const contribution = (sensitivities[0]?.[i] ?? 0) * Math.sqrt(row[i] ?? 0);
    return total > 0 ? (contribution / total) ** 2 : 0;
  });
}

/** Covariances of inputs that do not depend on each other. */
export function independent(u: readonly number[]): Matrix {
  return u.map((one, i) => u.map((_, j) => (i === j ? one * one : 0)));
}

/** r(y_i, y_j) = u(y_i, y_j)/(u(y_i)·u(y_j)) (GUM, 5.2.2, equation 14). */
export function correlation(covariance: Matrix, i: number, j: number): number {
  const of = (a: number, b: number): number => covariance[a]?.[b] ?? NaN;
  return of(i, j) / Math.sqrt(of(i, i) * of(j, j));
}

function deviations(covariance: Matrix): number[] {
  // Where what one gains the other loses, rounding may leave less than nothing.
  return covariance.map((row, i) => Math.sqrt(Math.max(row[i] ?? 0, 0)));
}

function quadratic(a: readonly number[], covariance: Matrix, b: readonly number[]): number {
  return covariance.reduce((total, row, i) => {
    return total + (a[i] ?? 0) * row.reduce((sum, one, j) => sum + one * (b[j] ?? 0), 0);
  }, 0);
}

/** Steps are a part of the uncertainty, over which the model is to be taken as a line anyway. */
const STEP_SHARE = 0.1;
/** Of an input without uncertainty, a part of its value. */
const STEP_OF_VALUE = 1e-3;

/**
 * Central differences over a step and half of it, from which the error of second order is taken out
 * (L. F. Richardson, 1911; from memory): twelve digits for the models of this program.
 */
function differentiate(model: Model, values: readonly number[], u: readonly number[]): Matrix {
  const columns = values.map((value, i) => {
    const step = STEP_SHARE * (u[i] ?? 0) || STEP_OF_VALUE * Math.abs(value) || STEP_OF_VALUE;
    const wide = difference(model, values, i, step);
    const narrow = difference(model, values, i, step / 2);
    return narrow.map((slope, j) => (4 * slope - (wide[j] ?? NaN)) / 3);
  });
  return model(values).map((_, j) => columns.map((column) => column[j] ?? NaN));
}

function difference(model: Model, values: readonly number[], i: number, step: number): number[] {
  const at = (value: number): readonly number[] => model(values.with(i, value));
  const value = values[i] ?? NaN;
  const [high, low] = [value + step, value - step];
  const below = at(low);
  return at(high).map((one, j) => (one - (below[j] ?? NaN)) / (high - low));
}
