/** What a rig should give at each blade angle: a model's answer, with a band. */
import { drawResult } from '../metrology/draws.ts';
import { windPower_W, type BenchRig } from './bench-rig.ts';
import { bestAngle, type BestAngle } from './best-angle.ts';
import { drawnRig, type Draw, type RigUncertainty } from './doubt.ts';
import { operate, setBlades, whenPushed } from './operating-point.ts';
import type { OperatingPoint, Operation } from './operating-point.ts';
import type { PredictedAngle } from './predicted-angle.ts';
import { remarksOn } from './prediction-remarks.ts';

export interface PredictionQuestion {
  readonly rig: BenchRig;
  readonly angles_deg: readonly number[];
  readonly uncertainty: RigUncertainty;
  /** At least 100, of `drawRigs`. */
  readonly draws: readonly Draw[];
}

export interface Prediction {
  readonly method: 'blade element momentum model';
  readonly airDensity_kgpm3: number;
  readonly windPower_W: number;
  /** In the order asked for. */
  readonly angles: readonly PredictedAngle[];
  readonly best: BestAngle;
  /** What a person should know of single angles: slow, or only when pushed. */
  readonly remarks: readonly string[];
  readonly limits: readonly string[];
}

/** Of the model, whatever the rig. */
export const LIMITS = [
  'A model, not a measurement: trust the order of the angles more than the watts.',
  "It takes an even wind along the axis. A fan's jet is slower in its middle, swirls, and blades longer than the jet sweep still air (rotor.jetRadius_m says how wide it is).",
  'It takes thin plates at the low Reynolds numbers of a bench, measured once and read off coarsely; rough, thick or bent blades differ.',
];

export function predict({ rig, angles_deg, uncertainty, draws }: PredictionQuestion): Prediction {
  const drawn = angles_deg.map((angle_deg) =>
    draws.map((draw) => {
      const one = drawnRig({ rig, angle_deg }, uncertainty, draw);
      return loadPower_W(operate(setBlades(one.rig, one.angle_deg, one.blades)).point);
    }),
  );
  const angles = angles_deg.map((angle_deg, i) => predictAngle(rig, angle_deg, drawn[i] ?? []));
  return {
    method: 'blade element momentum model',
    airDensity_kgpm3: rig.airDensity_kgpm3,
    windPower_W: windPower_W(rig),
    angles,
    best: bestAngle(angles, drawn),
    remarks: remarksOn(angles),
    limits: LIMITS,
  };
}

function predictAngle(
  rig: BenchRig,
  angle_deg: number,
  drawn_W: readonly number[],
): PredictedAngle {
  const set = setBlades(rig, angle_deg);
  const operation = operate(set);
  const { starts, point } = operation;
  let next = 0;
  const { low, high } = drawResult(() => drawn_W[next++] ?? NaN, drawn_W.length);
  return {
    angle_deg,
    starts,
    rotorSpeed_radps: point.rotorSpeed_radps,
    tipSpeedRatio: point.tipSpeedRatio,
    powerCoefficient: shaftPower_W(point) / windPower_W(rig),
    shaftPower_W: shaftPower_W(point),
    loadPower_W: loadPower_W(point),
    voltage_V: point.voltage_V,
    current_A: point.current_A,
    loadPowerLow_W: low,
    loadPowerHigh_W: high,
    startsShare: drawn_W.filter((power_W) => power_W > 0).length / drawn_W.length,
    pushed: otherSpeed(operation, whenPushed(set)),
  };
}

function otherSpeed({ point }: Operation, pushed: OperatingPoint | null): PredictedAngle['pushed'] {
  if (pushed === null || pushed.rotorSpeed_radps <= 1.001 * point.rotorSpeed_radps) return null;
  return { rotorSpeed_radps: pushed.rotorSpeed_radps, loadPower_W: loadPower_W(pushed) };
}

export function loadPower_W({ voltage_V, current_A }: OperatingPoint): number {
  return voltage_V * current_A;
}

/** Of the air on the rotor. */
export function shaftPower_W({ torque_Nm, rotorSpeed_radps }: OperatingPoint): number {
  return torque_Nm * rotorSpeed_radps;
}
