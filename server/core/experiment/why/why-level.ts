/** A level of the experiment, measured and expected. */
import type { BenchRig } from '../../rotor/bench-rig.ts';
import type { Meeting } from '../../rotor/blade-meeting.ts';
import type { PredictedPoint } from '../../rotor/predicted-point.ts';
import type { BestLevel } from '../../rotor/best-level.ts';

export interface MeasuredPower {
  /** Of the settings in which the rotor turned; 0 where it turned in none. */
  readonly mean_W: number;
  /** 95 % limits; null where nothing is known of the scatter. */
  readonly low_W: number | null;
  readonly high_W: number | null;
  readonly count: number;
  readonly didNotTurn: number;
}

export interface WhyLevel {
  readonly label: string;
  /** Its place among the factor's levels, and the combination of the others. */
  readonly seat: { readonly level: number; readonly beside: number };
  /** In the factor's unit; null for a name. */
  readonly value: number | null;
  readonly rig: BenchRig;
  readonly angle_deg: number;
  /** Null: not tried yet. */
  readonly measured: MeasuredPower | null;
  readonly point: PredictedPoint;
  /** Of the air on blades that stand still. */
  readonly standingTorque_Nm: number;
  /** Null where it stands, or beats still air. */
  readonly meeting: Meeting | null;
  /** Measured lies outside the band by more than twice its standard uncertainty. */
  readonly isFar: boolean;
}

/** By place among the levels. */
export interface WhyBest {
  /** Highest so far; null where nothing turned. */
  readonly measured: number | null;
  /** Those that can't be told from it yet. */
  readonly tiedWith: readonly number[];
  readonly model: BestLevel;
}
