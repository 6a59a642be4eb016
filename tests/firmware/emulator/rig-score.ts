/** The virtual rig, played on a board's pins: spin-up and plateaus with known truth. */
import { DEMO_PARAMETERS } from '#core/virtual-rig/demo.ts';
import { createRig, nextReading, type RigParameters, type TimedEvent } from '#core/virtual-rig/rig.ts';
import type { Stimulus } from './board.ts';
import { NO_DEVIATIONS, pinsOf, type Deviations, type Moment } from './wiring.ts';

/** A wind that the fan is set to, and how long it stays so. */
export interface Stage {
  readonly wind_mps: number;
  readonly length_s: number;
}

export type Truth = Moment & { readonly power_W: number };

export interface Performance {
  readonly score: readonly Stimulus[];
  /** Mean of what was at the rig over a stage, once it has come to rest. */
  truth(stage: number): Truth;
}

const RATE_HZ = 200;
const STANDING: Moment = { voltage_V: 0, current_A: 0, windSpeed_mps: 0, rotorSpeed_radps: 0 };
/** This rig is at rest by then. */
const SPIN_UP_S = 3;
const ANGLE_DEG = 20;

/** The demonstration rig with a light rotor and a quick fan, so that plateaus come soon. */
const RIG: RigParameters = {
  angle_deg: ANGLE_DEG,
  plant: {
    ...DEMO_PARAMETERS.plant,
    jet: { ...DEMO_PARAMETERS.plant.jet, fanLag_s: 0.3, droop: 0, rotorIntensity: 0.004, pointIntensity: 0.004, wander: 0.0002 },
    rotor: { ...DEMO_PARAMETERS.plant.rotor, inertia_kgm2: 0.9e-4 },
  },
  anemometer: { kind: 'analogue', step_mps: 1e-4, lag_s: 0.2 },
  // The board's own converter follows: what it is given is neither coarse nor noisy.
  converter: { ...DEMO_PARAMETERS.converter, voltageStep_V: 1e-6, currentStep_A: 1e-8, noise_steps: 0 },
};

export function perform(stages: readonly Stage[], seed: number, deviations: Deviations = NO_DEVIATIONS): Performance {
  const starts_s = stages.map((_, index) => stages.slice(0, index).reduce((sum, { length_s }) => sum + length_s, 0));
  const events = stages.map(({ wind_mps }, index): TimedEvent => {
    return { at_s: starts_s[index] ?? 0, event: { kind: 'fan', wind_mps } };
  });
  const moments = momentsOf(events, stages.reduce((sum, { length_s }) => sum + length_s, 0), seed);
  // At the end everything stands: held pins would look like one more plateau.
  const all = [...moments, STANDING];
  return {
    score: all.flatMap((moment, index) => pinsOf(index / RATE_HZ, moment, deviations)),
    truth(stage) {
      const start_s = starts_s[stage] ?? NaN;
      const end_s = start_s + (stages[stage]?.length_s ?? NaN);
      return meanOf(moments.slice((start_s + SPIN_UP_S) * RATE_HZ, end_s * RATE_HZ));
    },
  };
}

function momentsOf(events: readonly TimedEvent[], length_s: number, seed: number): Moment[] {
  const rig = createRig({ parameters: RIG, events, rate_Hz: RATE_HZ, seed });
  return Array.from({ length: length_s * RATE_HZ }, () => {
    const { voltage_V, current_A, windSpeed_mps } = nextReading(rig);
    return {
      voltage_V: voltage_V ?? 0,
      current_A: current_A ?? 0,
      windSpeed_mps: windSpeed_mps ?? 0,
      rotorSpeed_radps: rig.plant.rotorSpeed_radps,
    };
  });
}

function meanOf(moments: readonly Moment[]): Truth {
  const mean = (of: (moment: Moment) => number): number =>
    moments.reduce((sum, moment) => sum + of(moment), 0) / moments.length;
  return {
    voltage_V: mean((moment) => moment.voltage_V),
    current_A: mean((moment) => moment.current_A),
    windSpeed_mps: mean((moment) => moment.windSpeed_mps),
    rotorSpeed_radps: mean((moment) => moment.rotorSpeed_radps),
    power_W: mean((moment) => moment.voltage_V * moment.current_A),
  };
}
