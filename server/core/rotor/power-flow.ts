/** Where the power goes: from the wind to the rotor, through bearings and winding, to the load. */
import { drawResult } from '../metrology/draws.ts';
import { windPower_W, type BenchRig } from './bench-rig.ts';
import { drawnRig, type Draw, type RigUncertainty } from './doubt.ts';
import { operate, setBlades, type OperatingPoint } from './operating-point.ts';

/** What of the wind the rotor takes is what the other three get together. */
export interface PowerFlow {
  /** Through the disc that the blades sweep. */
  readonly wind_W: number;
  /** Of the air on the rotor: shaft power. */
  readonly rotor_W: number;
  /** Warms bearings and brushes. */
  readonly friction_W: number;
  /** Warms the generator's winding. */
  readonly winding_W: number;
  readonly load_W: number;
}

export function powerFlow(rig: BenchRig, point: OperatingPoint): PowerFlow {
  const { rotorSpeed_radps, torque_Nm, voltage_V, current_A } = point;
  return {
    wind_W: windPower_W(rig),
    rotor_W: torque_Nm * rotorSpeed_radps,
    friction_W: rig.generator.runningTorque_Nm * rotorSpeed_radps,
    winding_W: current_A ** 2 * rig.generator.resistance_Ohm,
    load_W: voltage_V * current_A,
  };
}

/** The same in each draw of what is not known for sure. */
export function drawPowerFlows(
  set: { readonly rig: BenchRig; readonly angle_deg: number },
  uncertainty: RigUncertainty,
  draws: readonly Draw[],
): PowerFlow[] {
  return draws.map((draw) => {
    const { rig, angle_deg, blades } = drawnRig(set, uncertainty, draw);
    return powerFlow(rig, operate(setBlades(rig, angle_deg, blades)).point);
  });
}

/** The middle 95 % of the draws, W. */
export interface Band {
  readonly low_W: number;
  readonly high_W: number;
}

export type PowerFlowBand = { readonly [Part in keyof PowerFlow]: Band };

export function powerFlowBand(drawn: readonly PowerFlow[]): PowerFlowBand {
  return {
    wind_W: bandOf(drawn.map(({ wind_W }) => wind_W)),
    rotor_W: bandOf(drawn.map(({ rotor_W }) => rotor_W)),
    friction_W: bandOf(drawn.map(({ friction_W }) => friction_W)),
    winding_W: bandOf(drawn.map(({ winding_W }) => winding_W)),
    load_W: bandOf(drawn.map(({ load_W }) => load_W)),
  };
}

/** @param powers_W at least 100 */
function bandOf(powers_W: readonly number[]): Band {
  let next = 0;
  const { low, high } = drawResult(() => powers_W[next++] ?? NaN, powers_W.length);
  return { low_W: low, high_W: high };
}
