import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  advancePlant,
  applyEvent,
  createPlant,
  type Plant,
  type PlantParameters,
} from '#core/virtual-rig/plant.ts';
import {
  damping_Nms,
  steadySpeed_radps,
  steadyVoltage_V,
  windForVoltage_mps,
} from '#core/virtual-rig/steady-state.ts';
import { createRandom } from '#core/virtual-rig/random.ts';
import { plantWith, STILL_AIR } from './example-rig.ts';

const STEP_S = 0.005;
const POINT = { wind_mps: 4, angle_deg: 30 };

function run(plant: Plant, duration_s: number, watch: (plant: Plant) => void = () => {}): void {
  for (let i = 0; i < duration_s / STEP_S; i++) {
    advancePlant(plant);
    watch(plant);
  }
}

function blown(parameters: PlantParameters, seed: number | null, angle_deg = 30): Plant {
  const random = seed === null ? null : createRandom(seed);
  const plant = createPlant(parameters, angle_deg, STEP_S, random);
  applyEvent(plant, { kind: 'fan', wind_mps: POINT.wind_mps });
  return plant;
}

describe('plant', () => {
  it('settles at the speed and voltage where the torques balance', () => {
    const plant = blown(plantWith(STILL_AIR), null);
    run(plant, 40);
    expect(plant.rotorSpeed_radps / steadySpeed_radps(plant.parameters, POINT)).toBeCloseTo(1, 5);
    expect(plant.voltage_V / steadyVoltage_V(plant.parameters, POINT)).toBeCloseTo(1, 5);
  });

  it('answers a small change with the time constant of inertia over damping', () => {
    // Closed form of a first-order lag: 1 - 1/e of the change after one time constant.
    const parameters = plantWith({ ...STILL_AIR, fanLag_s: 0.006 });
    const plant = blown(parameters, null);
    run(plant, 40);
    const before = plant.rotorSpeed_radps;
    const after = steadySpeed_radps(parameters, { ...POINT, wind_mps: 4.08 });
    applyEvent(plant, { kind: 'fan', wind_mps: 4.08 });
    run(plant, parameters.rotor.inertia_kgm2 / damping_Nms(parameters, POINT));
    const share = (plant.rotorSpeed_radps - before) / (after - before);
    expect(share).toBeGreaterThan(0.6);
    expect(share).toBeLessThan(0.66);
  });

  it('has the mean of the noisy plant as its noise-free level', () => {
    const parameters = plantWith({ droop: 0, rotorIntensity: 0.2, wander: 0.01 });
    const truth = blown(parameters, null);
    run(truth, 40);
    const noisy = blown(parameters, 5);
    run(noisy, 40);
    let sum = 0;
    run(noisy, 4000, ({ voltage_V }) => (sum += voltage_V));
    // Gusts of 20 % raise the mean by about 4 %. The standard error of this mean is near
    // 1.2 · 0.2 · √(2 · 0.12 s/4000 s) = 0.19 %.
    expect(Math.abs(sum / (4000 / STEP_S) / truth.voltage_V - 1)).toBeLessThan(0.006);
  });

  it('never takes more from the wind than Betz allows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 85, noNaN: true }),
        fc.double({ min: 1, max: 9, noNaN: true }),
        (angle_deg, wind_mps) => {
          const parameters = plantWith(STILL_AIR);
          const plant = createPlant(parameters, angle_deg, STEP_S, null);
          applyEvent(plant, { kind: 'fan', wind_mps });
          run(plant, 60);
          const { airDensity_kgpm3, rotor } = parameters;
          const wind_W = 0.5 * airDensity_kgpm3 * Math.PI * rotor.radius_m ** 2 * wind_mps ** 3;
          expect(plant.voltage_V * plant.current_A).toBeLessThan((16 / 27) * wind_W);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('comes to a full stop when the fan is off', () => {
    const plant = blown(plantWith({}), 1);
    run(plant, 20);
    applyEvent(plant, { kind: 'fan', wind_mps: 0 });
    run(plant, 20);
    expect(plant.rotorSpeed_radps).toBe(0);
    expect(plant.voltage_V).toBe(0);
  });

  it('does not turn edge-on, nor before the wind overcomes static friction', () => {
    const edgeOn = blown(plantWith({}), 1, 90);
    run(edgeOn, 20);
    expect(edgeOn.rotorSpeed_radps).toBe(0);
    expect(edgeOn.pointWind_mps).toBeGreaterThan(3);
    const stiff = plantWith(STILL_AIR);
    const stuck = blown({ ...stiff, generator: { ...stiff.generator, staticTorque_Nm: 1 } }, null);
    run(stuck, 20);
    expect(stuck.rotorSpeed_radps).toBe(0);
  });

  it('droops by the given share of the wind, and recovers after a stop', () => {
    const plant = blown(plantWith({ ...STILL_AIR, droop: 0.03, droopTime_s: 10 }), null);
    run(plant, 100);
    expect(plant.fanWind_mps).toBeCloseTo(0.97 * POINT.wind_mps, 3);
    applyEvent(plant, { kind: 'fan', wind_mps: 0 });
    run(plant, 1);
    applyEvent(plant, { kind: 'fan', wind_mps: POINT.wind_mps });
    run(plant, 4);
    expect(plant.fanWind_mps).toBeGreaterThan(0.98 * POINT.wind_mps);
  });

  it('slows behind a hand, hunts, creeps and takes a slipped blade', () => {
    const settled = () => {
      const plant = blown(plantWith(STILL_AIR), null);
      run(plant, 40);
      return plant;
    };
    const level = settled().voltage_V;

    const hand = settled();
    applyEvent(hand, { kind: 'obstruction', passes: 0.5 });
    run(hand, 3);
    expect(hand.voltage_V).toBeLessThan(0.6 * level);

    const creeping = settled();
    applyEvent(creeping, { kind: 'creep', rate_per_s: 0.005 });
    run(creeping, 20);
    expect(creeping.voltage_V).toBeGreaterThan(1.08 * level);

    const slipped = settled();
    applyEvent(slipped, { kind: 'angle', angle_deg: 36 });
    run(slipped, 20);
    expect(slipped.voltage_V).toBeLessThan(0.9 * level);

    const hunting = settled();
    applyEvent(hunting, { kind: 'hunting', amplitude: 0.2, period_s: 4 });
    let [low, high] = [Infinity, 0];
    run(hunting, 12, ({ voltage_V }) => {
      low = Math.min(low, voltage_V);
      high = Math.max(high, voltage_V);
    });
    expect(high - low).toBeGreaterThan(0.1 * level);
  });

  it('finds the wind for a wanted voltage', () => {
    const parameters = plantWith({});
    const wind_mps = windForVoltage_mps(parameters, 30, 1.5);
    expect(steadyVoltage_V(parameters, { wind_mps, angle_deg: 30 })).toBeCloseTo(1.5, 6);
  });
});
