import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveRing } from '#core/rotor/annulus.ts';
import { windPower_W } from '#core/rotor/bench-rig.ts';
import { AS_SAID } from '#core/rotor/doubt.ts';
import { airTorque_Nm, operate, setBlades, whenPushed } from '#core/rotor/operating-point.ts';
import { platePolar } from '#core/rotor/plate-polar.ts';
import { bladingOf, rotorCoefficients, type Blading, type RotorShape } from '#core/rotor/rotor.ts';
import { idealPowerCoefficient } from '#core/rotor/wind/ideal-rotor.ts';
import { rigWith } from '../../unit/rotor/rigs.ts';

const DEGREE = Math.PI / 180;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const anyShape: fc.Arbitrary<RotorShape> = fc
  .record({ radius_m: number(0.02, 2), hub: number(0, 0.9), chord: number(0.01, 1.5), blades: fc.integer({ min: 1, max: 24 }) })
  .map(({ radius_m, hub, chord, blades }) => ({
    radius_m,
    hubRadius_m: hub * radius_m,
    chord_m: chord * radius_m,
    blades,
    jetRadius_m: null,
  }));
const anyPlate = fc.record({ camber: number(0, 0.15), broadsideDrag: number(0.8, 2.7), smoothness: number(0.7, 1.4) });
const flatPlate = anyPlate.map((plate) => ({ ...plate, camber: 0 }));
const anyAngle_deg = fc.oneof(number(0, 90), fc.constantFrom(0, 1, 45, 89.999, 90));
const anyRatio = fc.oneof(number(0.01, 30), fc.constantFrom(0.01, 1, 5));

describe('a rotor of plates', () => {
  it('never takes more than the ideal rotor at its tip speed ratio, and its figures are numbers', () => {
    fc.assert(
      fc.property(anyShape, anyPlate, anyAngle_deg, anyRatio, (shape, plate, angle_deg, ratio) => {
        const blading = bladingOf(shape, angle_deg * DEGREE, platePolar(plate));
        const { torque, thrust } = rotorCoefficients(blading, ratio);
        expect(Number.isFinite(torque) && Number.isFinite(thrust)).toBe(true);
        expect(ratio * torque).toBeLessThanOrEqual(idealPowerCoefficient(ratio));
      }),
      { numRuns: 800 },
    );
  });

  it('finds every ring in balance', () => {
    fc.assert(
      fc.property(anyShape, anyPlate, number(-90, 90), number(0, 30), (shape, plate, angle_deg, ratio) => {
        for (const ring of bladingOf(shape, angle_deg * DEGREE, platePolar(plate))) {
          const flow = solveRing(ring, { axial: 1, tangential: ratio * ring.radius });
          // Both sides of the velocity triangle, from the induction alone.
          const axial = 1 - flow.axialInduction;
          const across = flow.relativeSpeed * Math.cos(flow.inflow_rad);
          expect(flow.relativeSpeed * Math.sin(flow.inflow_rad)).toBeCloseTo(axial, 6);
          if (Number.isFinite(flow.tangentialInduction) && ratio > 0.1) {
            const wanted = ratio * ring.radius * (1 + flow.tangentialInduction);
            expect(Math.abs(across - wanted)).toBeLessThan(1e-3 * Math.max(1, Math.abs(across), Math.abs(wanted)));
          }
        }
      }),
      { numRuns: 200 },
    );
  });

  it('seen in a mirror turns the other way with the same torque', () => {
    fc.assert(
      fc.property(anyShape, flatPlate, number(0.5, 89.5), (shape, plate, angle_deg) => {
        const torqueAt = (degrees: number): number =>
          rotorCoefficients(bladingOf(shape, degrees * DEGREE, platePolar(plate)), 0).torque;
        // Blades that stand still: mirrored, and turned by half a turn, which is the same plate.
        expect(torqueAt(-angle_deg)).toBeCloseTo(-torqueAt(angle_deg), 6);
        expect(torqueAt(180 - angle_deg)).toBeCloseTo(-torqueAt(angle_deg), 6);
      }),
      { numRuns: 200 },
    );
  });

  it('turns by itself neither flat nor edge-on', () => {
    fc.assert(
      fc.property(anyShape, flatPlate, fc.constantFrom(0, 90), number(0, 20), (shape, plate, angle_deg, ratio) => {
        const { torque } = rotorCoefficients(bladingOf(shape, angle_deg * DEGREE, platePolar(plate)), ratio);
        expect(torque).toBeLessThan(1e-9);
      }),
    );
  });

  it('changes without a step as its running blades are turned a little', () => {
    const step_deg = 0.01;
    fc.assert(
      fc.property(anyShape, flatPlate, number(1, 89), number(0.5, 8), (shape, plate, angle_deg, ratio) => {
        const [one, other] = [angle_deg, angle_deg + step_deg].map((degrees) =>
          bladingOf(shape, degrees * DEGREE, platePolar(plate)),
        ) as [Blading, Blading];
        // The rotating branch: nowhere are the blades stalled.
        const flows = one.map((ring) => solveRing(ring, { axial: 1, tangential: ratio * ring.radius }));
        const isRunning = flows.every(({ inflow_rad }) => Math.abs(inflow_rad - angle_deg * DEGREE) < 8 * DEGREE);
        fc.pre(isRunning);
        const difference = rotorCoefficients(other, ratio).torque - rotorCoefficients(one, ratio).torque;
        const scale = 1 + ratio * ratio;
        expect(Math.abs(difference)).toBeLessThan(0.01 * scale);
      }),
      { numRuns: 200 },
    );
  });
});

describe('a whole rig', () => {
  it('is in balance, and below the ideal rotor, where a strong generator holds it all but still', () => {
    fc.assert(
      fc.property(number(5, 10), number(0.01, 0.5), number(0.01, 0.02), number(10, 70), (k, ohms, radius_m, angle_deg) => {
        const rig = rigWith({
          ...{ emfConstant_Vsprad: k, resistance_Ohm: ohms, staticTorque_Nm: 0, runningTorque_Nm: 0 },
          ...{ radius_m, hubRadius_m: 0.4 * radius_m, chord_m: 0.2 * radius_m },
          load: { kind: 'lamp', ratedVoltage_V: 0.3, ratedCurrent_A: 0.02, resistanceExponent: 0.2 },
        });
        const set = setBlades(rig, angle_deg);
        const { point } = operate(set);
        expect(point.torque_Nm / airTorque_Nm(set, point.tipSpeedRatio)).toBeCloseTo(1, 3);
        const coefficient = (point.torque_Nm * point.rotorSpeed_radps) / windPower_W(rig);
        expect(point.tipSpeedRatio).toBeGreaterThan(0);
        expect(coefficient).toBeLessThanOrEqual(idealPowerCoefficient(point.tipSpeedRatio));
      }),
      { numRuns: 150 },
    );
  });

  it('comes to a finite point whatever it is, and never to one that takes power from the load', () => {
    const anyRig = fc.record({
      windSpeed_mps: number(0.1, 40),
      radius_m: number(0.01, 3),
      chord_m: number(0.001, 1),
      blades: fc.integer({ min: 1, max: 24 }),
      camber: number(0, 0.15),
      emfConstant_Vsprad: number(1e-4, 10),
      resistance_Ohm: number(0.01, 1e5),
      staticTorque_Nm: number(0, 10),
    });
    fc.assert(
      fc.property(anyRig, anyAngle_deg, fc.boolean(), (rig, angle_deg, isLamp) => {
        const set = setBlades(
          rigWith({
            ...rig,
            hubRadius_m: rig.radius_m / 10,
            runningTorque_Nm: rig.staticTorque_Nm / 2,
            ...(isLamp && { load: { kind: 'lamp', ratedVoltage_V: 2.5, ratedCurrent_A: 0.2 } }),
          }),
          angle_deg,
          AS_SAID.blades,
        );
        for (const point of [operate(set).point, whenPushed(set)]) {
          for (const value of Object.values(point ?? {})) {
            expect(Number.isFinite(value)).toBe(true);
            expect(value).toBeGreaterThanOrEqual(0);
          }
        }
      }),
      { numRuns: 150 },
    );
  });
});
