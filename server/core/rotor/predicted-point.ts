/** What the model expects of a rig as it is set. */
import type { PowerFlow, PowerFlowBand } from './power-flow.ts';

export interface PredictedPoint {
  /** By itself, from standstill; where it does not, all that follows is 0. */
  readonly starts: boolean;
  readonly rotorSpeed_radps: number;
  readonly tipSpeedRatio: number;
  /** The air's power on the rotor, shaft power, over wind power. */
  readonly powerCoefficient: number;
  readonly shaftPower_W: number;
  readonly loadPower_W: number;
  readonly voltage_V: number;
  readonly current_A: number;
  /** Of the draws, the middle 95 %. */
  readonly loadPowerLow_W: number;
  readonly loadPowerHigh_W: number;
  /** Of the draws. */
  readonly startsShare: number;
  /** Where the power goes, with the middle 95 % of each. */
  readonly powerFlow: PowerFlow & { readonly band: PowerFlowBand };
  /** Where it runs once spun by hand, if that is not where it comes to by itself. */
  readonly pushed: { readonly rotorSpeed_radps: number; readonly loadPower_W: number } | null;
}

export interface PredictedAngle extends PredictedPoint {
  readonly angle_deg: number;
}
