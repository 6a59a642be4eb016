/**
 * One ring of the rotor: blade elements and momentum in balance.
 *
 * Solved for the inflow angle alone, with a root that is always bracketed (S. A. Ning, A simple
 * solution method for the blade element momentum equations with guaranteed convergence, Wind Energy
 * 17(9), 2014, 1327). Its residual is multiplied by sin φ and by the tangential speed here: so it
 * is bounded, smooth and also good for blades that stand still, where the flow's own swirl is all
 * that turns it. Prandtl's loss at tip and hub; thrust above an induction of 0.4 by M. L. Buhl
 * (NREL/TP-500-36834, 2005).
 */
import { rootInside, type Bracket } from '../root.ts';
import { lossFactor } from './prandtl.ts';
import type { Polar } from './plate-polar.ts';

export interface Ring {
  /** Share of the circumference that the chords of all blades cover. */
  readonly solidity: number;
  /** From the rotor plane towards the wind. */
  readonly pitch_rad: number;
  readonly polar: Polar;
  /** Prandtl's exponents at a right inflow angle; Infinity where nothing is lost. */
  readonly tipExponent: number;
  readonly hubExponent: number;
}

/** Of air against the ring, without what the rotor does to it; in any unit of speed. */
export interface Stream {
  /** Along the axis, above 0. */
  readonly axial: number;
  /** That the blade meets by turning, from 0 on. */
  readonly tangential: number;
}

export interface RingFlow {
  /** From the rotor plane. */
  readonly inflow_rad: number;
  readonly axialInduction: number;
  /** Infinite for blades that stand still. */
  readonly tangentialInduction: number;
  /** Of air against the blade, with all that the rotor does to it; in the stream's unit. */
  readonly relativeSpeed: number;
  /** Force coefficients along the axis and in the direction of turning. */
  readonly normal: number;
  readonly tangential: number;
}

/** Near 0 the residual has a limit, but not a value. */
const LEAST_INFLOW = 1e-6;
/** Relative: far below what the model can claim. */
const CLOSE_ENOUGH = 1e-7;
/** A residual this small is as good as none. */
const NOTHING = 1e-10;

export function solveRing(ring: Ring, { axial, tangential }: Stream): RingFlow {
  const ratio = tangential / axial;
  let last_rad = NaN;
  let last = NOT_YET;
  const residual = (inflow_rad: number): number => {
    last_rad = inflow_rad;
    last = balance(ring, ratio, inflow_rad);
    return Math.abs(last.residual) < NOTHING ? 0 : last.residual;
  };
  const inflow_rad = rootInside(bracketOf(residual, ratio), residual, CLOSE_ENOUGH);
  // The root is nearly always what was looked at last.
  const found = last_rad === inflow_rad ? last : balance(ring, ratio, inflow_rad);
  const { normal, tangential: turning, slowing, swirling } = found;
  return {
    inflow_rad,
    axialInduction: 1 - 1 / slowing,
    tangentialInduction: 1 / swirling - 1,
    relativeSpeed: axial / slowing / Math.sin(inflow_rad),
    normal,
    tangential: turning,
  };
}

const NOT_YET: Balance = {
  residual: NaN,
  normal: NaN,
  tangential: NaN,
  slowing: NaN,
  swirling: NaN,
};

type Residual = (inflow_rad: number) => number;

/** Two angles with the root in between: for any drag above 0 the residual is below 0 near 0. */
function bracketOf(residual: Residual, ratio: number): Bracket {
  // A rotor that takes power from the wind is met more flatly than one that leaves it as it is.
  const untouched = Math.atan2(1, ratio);
  const atUntouched = residual(untouched);
  if (atUntouched >= 0) return narrowed(residual, LEAST_INFLOW, untouched, atUntouched);
  const across = residual(Math.PI / 2);
  if (across >= 0) {
    return { low: untouched, atLow: atUntouched, high: Math.PI / 2, atHigh: across };
  }
  // Blades pitched against the turning may be met from beyond the axis: the mirror image.
  return narrowed(residual, Math.PI - LEAST_INFLOW, Math.PI / 2, across);
}

/** Of the way from flat to the untouched inflow: most rings are met more steeply. */
const USUAL_SHARE = 0.6;

/** Between `low`, where the sign is the other one, and `high`; narrowed to one side of the usual. */
function narrowed(residual: Residual, low: number, high: number, atHigh: number): Bracket {
  const usual = low + USUAL_SHARE * (high - low);
  const atUsual = residual(usual);
  return atUsual * atHigh > 0
    ? { low, atLow: residual(low), high: usual, atHigh: atUsual }
    : { low: usual, atLow: atUsual, high, atHigh };
}

interface Balance {
  /** Has the sign of: this inflow angle is too large. */
  readonly residual: number;
  readonly normal: number;
  readonly tangential: number;
  /** 1 / (1 − a) */
  readonly slowing: number;
  /** 1 / (1 + a′) */
  readonly swirling: number;
}

function balance(ring: Ring, ratio: number, inflow_rad: number): Balance {
  const sine = Math.sin(inflow_rad);
  const cosine = Math.cos(inflow_rad);
  const { lift, drag } = ring.polar(inflow_rad - ring.pitch_rad);
  const normal = lift * cosine + drag * sine;
  const tangential = lift * sine - drag * cosine;
  const loss = lossFactor(ring, sine);
  const pull = ring.solidity / (4 * loss);
  const slowing = slowingOf((pull * normal) / (sine * sine), loss);
  return {
    residual: ratio * sine * sine * slowing - sine * cosine + pull * tangential,
    normal,
    tangential,
    slowing,
    swirling: 1 - (pull * tangential) / (sine * cosine),
  };
}

/**
 * 1 / (1 − a) from the ring's load σ C_n / (4 F sin² φ): momentum theory up to a = 0.4, then
 * Buhl's parabola, solved for a as in Ning's paper.
 */
export function slowingOf(load: number, loss: number): number {
  if (load <= 2 / 3) return 1 + load;
  const scaled = 2 * loss * load;
  const first = scaled - (10 / 9 - loss);
  const second = Math.sqrt(scaled - loss * (4 / 3 - loss));
  const third = scaled - (25 / 9 - 2 * loss);
  // Where the parabola is a straight line, the quotient has a limit.
  const induction = Math.abs(third) < 1e-6 ? 1 - 1 / (2 * second) : (first - second) / third;
  return 1 / (1 - induction);
}
