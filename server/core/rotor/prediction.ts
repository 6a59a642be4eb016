/** What a rig should give at each blade angle: a model's answer, with a band. */
import { windPower_W, type BenchRig } from './bench-rig.ts';
import { bestAngle, type BestAngle } from './best-angle.ts';
import type { Draw, RigUncertainty } from './doubt.ts';
import { operate, setBlades, whenPushed } from './operating-point.ts';
import type { OperatingPoint, Operation } from './operating-point.ts';
import { drawPowerFlows, powerFlow, powerFlowBand, type PowerFlow } from './power-flow.ts';
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

export function predict(question: PredictionQuestion): Prediction {
  const { rig, angles_deg, uncertainty, draws } = question;
  const drawn = angles_deg.map((angle_deg) =>
    drawPowerFlows({ rig, angle_deg }, uncertainty, draws),
  );
  const angles = angles_deg.map((angle_deg, i) => predictAngle(rig, angle_deg, drawn[i] ?? []));
  const drawnPowers_W = drawn.map((flows) => flows.map(({ load_W }) => load_W));
  return {
    method: 'blade element momentum model',
    airDensity_kgpm3: rig.airDensity_kgpm3,
    windPower_W: windPower_W(rig),
    angles,
    best: bestAngle(angles, drawnPowers_W),
    remarks: remarksOn(angles),
    limits: LIMITS,
  };
}

function predictAngle(
  rig: BenchRig,
  angle_deg: number,
  drawn: readonly PowerFlow[],
): PredictedAngle {
  const set = setBlades(rig, angle_deg);
  const operation = operate(set);
  const { rotorSpeed_radps, tipSpeedRatio, voltage_V, current_A } = operation.point;
  const flow = powerFlow(rig, operation.point);
  const band = powerFlowBand(drawn);
  return {
    angle_deg,
    starts: operation.starts,
    rotorSpeed_radps,
    tipSpeedRatio,
    powerCoefficient: flow.rotor_W / flow.wind_W,
    shaftPower_W: flow.rotor_W,
    loadPower_W: flow.load_W,
    voltage_V,
    current_A,
    loadPowerLow_W: band.load_W.low_W,
    loadPowerHigh_W: band.load_W.high_W,
    startsShare: drawn.filter(({ rotor_W }) => rotor_W > 0).length / drawn.length,
    powerFlow: { ...flow, band },
    pushed: otherSpeed(operation, whenPushed(set)),
  };
}

function otherSpeed({ point }: Operation, pushed: OperatingPoint | null): PredictedAngle['pushed'] {
  if (pushed === null || pushed.rotorSpeed_radps <= 1.001 * point.rotorSpeed_radps) return null;
  const { rotorSpeed_radps, voltage_V, current_A } = pushed;
  return { rotorSpeed_radps, loadPower_W: voltage_V * current_A };
}
