/** What the model expects of a rig as it is set: a figure with its band. */
import type { BenchRig } from './bench-rig.ts';
import type { Draw, RigUncertainty } from './doubt.ts';
import { operate, setBlades, whenPushed, type SetRig } from './operating-point.ts';
import type { OperatingPoint, Operation } from './operating-point.ts';
import { drawPowerFlows, powerFlow, powerFlowBand, type PowerFlow } from './power-flow.ts';
import type { PredictedPoint } from './predicted-point.ts';

export interface Doubt {
  readonly uncertainty: RigUncertainty;
  /** At least 100, of `drawRigs`. */
  readonly draws: readonly Draw[];
}

export interface PredictedSetting {
  readonly point: PredictedPoint;
  readonly drawn_W: readonly number[];
}

/** A rig with its blades at an angle; the load's power in each draw is given beside. */
export function predictSetting(
  { rig, angle_deg }: { readonly rig: BenchRig; readonly angle_deg: number },
  { uncertainty, draws }: Doubt,
): PredictedSetting {
  const drawn = drawPowerFlows({ rig, angle_deg }, uncertainty, draws);
  const point = pointWithin(setBlades(rig, angle_deg), drawn);
  return { point, drawn_W: drawn.map(({ load_W }) => load_W) };
}

function pointWithin(set: SetRig, drawn: readonly PowerFlow[]): PredictedPoint {
  const operation = operate(set);
  const { rotorSpeed_radps, tipSpeedRatio, voltage_V, current_A } = operation.point;
  const flow = powerFlow(set.rig, operation.point);
  const band = powerFlowBand(drawn);
  return {
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

function otherSpeed({ point }: Operation, pushed: OperatingPoint | null): PredictedPoint['pushed'] {
  if (pushed === null || pushed.rotorSpeed_radps <= 1.001 * point.rotorSpeed_radps) return null;
  const { rotorSpeed_radps, voltage_V, current_A } = pushed;
  return { rotorSpeed_radps, loadPower_W: voltage_V * current_A };
}
