import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  aerodynamicTorque_Nm,
  bestPowerCoefficient,
  torqueLine,
  type Rotor,
} from '#core/virtual-rig/rotor.ts';

const ROTOR: Rotor = {
  radius_m: 0.2,
  inertia_kgm2: 5e-4,
  startTorqueCoefficient: 0.126,
  windage_Nms2: 0,
};
const FLOW = { airDensity_kgpm3: 1.2, wind_mps: 4 };
/** Betz (1920): no rotor in a free wind takes more than 16/27 of its power. */
const BETZ = 16 / 27;

describe('torque line', () => {
  it('never takes more than Betz allows, at any angle and speed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 90, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        (angle_deg, speed_radps) => {
          const line = torqueLine(ROTOR, angle_deg);
          const wind_W = 0.5 * 1.2 * Math.PI * 0.2 ** 2 * 4 ** 3;
          const share =
            (aerodynamicTorque_Nm(ROTOR, line, FLOW, speed_radps) * speed_radps) / wind_W;
          expect(share).toBeLessThanOrEqual(BETZ);
          expect(share).toBeLessThanOrEqual(bestPowerCoefficient(line) + 1e-12);
        },
      ),
    );
  });

  it('gives no torque to blades edge-on to the wind or flat in the rotor plane', () => {
    for (const angle_deg of [0, 90]) {
      const line = torqueLine(ROTOR, angle_deg);
      expect(aerodynamicTorque_Nm(ROTOR, line, FLOW, 0)).toBe(0);
    }
  });

  // Blade element computation for three flat blades, optimistic, about these values; not measured.
  it.each([
    [15, 0.056],
    [30, 0.1],
    [45, 0.126],
    [60, 0.12],
  ])('starts at %d° with a torque coefficient of about %d', (angle_deg, expected) => {
    expect(torqueLine(ROTOR, angle_deg).start / expected).toBeGreaterThan(0.85);
    expect(torqueLine(ROTOR, angle_deg).start / expected).toBeLessThan(1.15);
  });

  it('turns faster at shallower angles, and unloaded stops at its runaway speed', () => {
    const line = torqueLine(ROTOR, 30);
    expect(line.runaway).toBeLessThan(torqueLine(ROTOR, 20).runaway);
    const runaway_radps = (line.runaway * 4) / 0.2;
    expect(aerodynamicTorque_Nm(ROTOR, line, FLOW, runaway_radps)).toBeCloseTo(0, 12);
    expect(aerodynamicTorque_Nm(ROTOR, line, FLOW, 1.1 * runaway_radps)).toBeLessThan(0);
  });
});
