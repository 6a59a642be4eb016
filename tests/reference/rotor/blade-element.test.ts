/** The blade element momentum kernel against values from outside the project. */
import { describe, expect, it } from 'vitest';
import { slowingOf, solveRing } from '#core/rotor/annulus.ts';
import { endExponents, lossFactor } from '#core/rotor/prandtl.ts';
import reference from './fixtures/nrel-5mw.json' with { type: 'json' };
import { referenceRotor } from './nrel-5mw.ts';

const DEGREE = Math.PI / 180;

describe("Prandtl's tip loss", () => {
  // (2/π) acos exp(−(B/2)(1 − r/R)/((r/R) sin φ)), computed by an independent program (SciPy).
  it.each([
    [2, 0.9, 10, 0.646361],
    [3, 0.9, 10, 0.749802],
    [3, 0.95, 10, 0.562267],
    [2, 0.95, 7, 0.550129],
    [6, 0.9, 30, 0.656759],
  ])('%d blades at %d of the radius, inflow %d°: %d', (blades, radius, inflow_deg, expected) => {
    const { tipExponent } = endExponents(blades, { radius, tip: 1, hub: 0 });
    const loss = lossFactor({ tipExponent, hubExponent: Infinity }, Math.sin(inflow_deg * DEGREE));
    expect(loss).toBeCloseTo(expected, 6);
  });
});

describe("Buhl's thrust at high induction", () => {
  // NREL/TP-500-36834: C_T = 8/9 + (4F − 40/9) a + (50/9 − 4F) a².
  it.each([
    [1, 0.4, 0.96],
    [1, 0.6, 1.18222],
    [1, 0.8, 1.52889],
    [0.9, 0.4, 0.864],
    [0.9, 0.6, 1.08622],
  ])('F %d, a %d: C_T %d', (loss, induction, thrust) => {
    // The load that gives this thrust: C_T = 4 F (1 − a)² load.
    const load = thrust / (4 * loss * (1 - induction) ** 2);
    expect(1 - 1 / slowingOf(load, loss)).toBeCloseTo(induction, 4);
  });

  // R. E. Wilson, P. B. S. Lissaman, S. N. Walker, 1976, digitised: measured, so only near.
  it.each([
    [0.268, 0.836],
    [0.525, 1.31],
    [0.667, 1.59],
    [0.704, 1.68],
  ])('is near what was measured at a %d: C_T %d', (induction, thrust) => {
    const load = thrust / (4 * (1 - induction) ** 2);
    const found = 1 - 1 / slowingOf(load, 1);
    expect(4 * load * (1 - found) ** 2 / thrust).toBeGreaterThan(0.8);
    expect(4 * load * (1 - found) ** 2 / thrust).toBeLessThan(1.2);
  });

  it('has no step where it takes over, and none where its parabola is a line', () => {
    for (const loss of [0.3, 0.9, 1]) {
      expect(slowingOf(2 / 3 + 1e-9, loss)).toBeCloseTo(slowingOf(2 / 3, loss), 7);
      const straight = (25 / 9 - 2 * loss) / (2 * loss);
      const [below, above] = [slowingOf(straight - 2e-6, loss), slowingOf(straight + 2e-6, loss)];
      expect(slowingOf(straight, loss)).toBeGreaterThan(below);
      expect(slowingOf(straight, loss)).toBeLessThan(above);
    }
  });
});

describe("Ingram's worked example", () => {
  // G. Ingram, Wind turbine blade analysis using the blade element momentum method, Durham
  // University, 2011; values as in the tests that A. Ning published with his method (MIT licence).
  // c_l 0.084 a degree, no drag, no tip loss; inflow angle from the axis.
  it.each([
    [1, 0.706025153, 74.31002131, 0.2443, 0.0676, 66.1354],
    [2, 0.436187551, 84.89805553, 0.2497, 0.018, 77.0298],
    [3, 0.304517933, 89.07195504, 0.2533, 0.0081, 81.2283],
    [4, 0.232257636, 91.25038415, 0.2556, 0.0046, 83.3961],
    [5, 0.187279622, 92.58003871, 0.25725, 0.003, 84.7113],
  ])('at %d m', (radius, chord, stagger_deg, a, b, inflow_deg) => {
    const flow = solveRing(
      {
        solidity: (3 * chord) / (2 * Math.PI * radius),
        pitch_rad: (90 - stagger_deg) * DEGREE,
        polar: (angle_rad) => ({ lift: (0.084 * angle_rad) / DEGREE, drag: 0 }),
        tipExponent: Infinity,
        hubExponent: Infinity,
      },
      { axial: 7, tangential: (8 * 7 * radius) / 5 },
    );
    expect(Math.abs(90 - flow.inflow_rad / DEGREE - inflow_deg)).toBeLessThan(4e-4);
    expect(Math.abs(flow.axialInduction - a)).toBeLessThan(1e-4);
    expect(Math.abs(flow.tangentialInduction - b)).toBeLessThan(1e-4);
  });
});

describe('NREL 5 MW reference rotor', () => {
  it('has the power and thrust of its reference curve with cone, tilt and shear', () => {
    const setting = { cone_deg: 2.5, tilt_deg: 5, shearExponent: 0.2, azimuths_deg: [0, 90, 180, 270] };
    const { powerCoefficients, thrustCoefficients } = reference;
    const off = powerCoefficients.map((power, i) => {
      const found = referenceRotor(2 + (13 * i) / 19, setting);
      return [found.power - power, found.thrust - thrustCoefficients[i]!];
    });
    expect(off).toHaveLength(20);
    expect(Math.max(...off.flat().map(Math.abs))).toBeLessThan(2.5e-3);
  });

  // Computed by an independent program with the same tables.
  it.each([
    [2, 0.0227],
    [4.737, 0.3174],
    [7.474, 0.4853],
    [10.211, 0.4387],
    [15, 0.2189],
  ])('without them at a tip speed ratio of %d: %d', (tipSpeedRatio, expected) => {
    const setting = { cone_deg: 0, tilt_deg: 0, shearExponent: 0, azimuths_deg: [0] };
    const { power } = referenceRotor(tipSpeedRatio, setting);
    expect(Math.abs(power - expected)).toBeLessThan(2.5e-3);
  });
});
