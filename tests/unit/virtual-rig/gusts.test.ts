import { describe, expect, it } from 'vitest';
import { gustTorque_Nm, type GustyRotor } from '#core/virtual-rig/gusts.ts';
import { torqueLine, torqueScale } from '#core/virtual-rig/rotor.ts';

const rotor = { radius_m: 0.2, inertia_kgm2: 5e-4, startTorqueCoefficient: 0.12, windage_Nms2: 0 };
const line = torqueLine(rotor, 30);
const flow = { airDensity_kgpm3: 1.2, wind_mps: 4 };
const gusty: GustyRotor = {
  rotor,
  line,
  flow,
  speed_radps: 30,
  loadDamping_Nms: 5e-5,
  gusts: [{ standardDeviation: 0.1, correlationTime_s: 0.1 }],
};

describe('gust torque', () => {
  it('is the variance of the wind times the standing torque where the rotor is too heavy', () => {
    // Mean of U² = (mean U)²·(1 + TI²).
    const heavy = { ...gusty, rotor: { ...rotor, inertia_kgm2: 1e6 } };
    expect(gustTorque_Nm(heavy)).toBeCloseTo(torqueScale(rotor, line, flow) * 16 * 0.01, 9);
  });

  it('is less for a rotor that follows, and nothing without gusts', () => {
    const light = { ...gusty, rotor: { ...rotor, inertia_kgm2: 1e-6 } };
    expect(gustTorque_Nm(light)).toBeLessThan(gustTorque_Nm(gusty));
    expect(gustTorque_Nm({ ...gusty, gusts: [] })).toBe(0);
  });

  it('adds up over gusts of several sizes', () => {
    const other = { standardDeviation: 0.02, correlationTime_s: 2 };
    const both = gustTorque_Nm({ ...gusty, gusts: [...gusty.gusts, other] });
    expect(both).toBeCloseTo(
      gustTorque_Nm(gusty) + gustTorque_Nm({ ...gusty, gusts: [other] }),
      12,
    );
  });
});
