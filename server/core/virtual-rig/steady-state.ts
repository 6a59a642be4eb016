/** Where the plant of the virtual rig comes to rest: mean torques in balance. */
import { steadyCircuit } from '../rotor/circuit.ts';
import { meanGustTorque_Nm, type PlantParameters } from './plant.ts';
import { rootBetween } from '../root.ts';
import { aerodynamicTorque_Nm, torqueLine } from './rotor.ts';

/** The wind and the blade angle of a working point. */
export interface WorkingPoint {
  readonly wind_mps: number;
  readonly angle_deg: number;
}

/** Speed at which the mean torques balance, rad/s; 0 where the rotor can't keep turning. */
export function steadySpeed_radps(parameters: PlantParameters, point: WorkingPoint): number {
  const { rotor } = parameters;
  const { runaway } = torqueLine(rotor, point.angle_deg);
  if (netTorque_Nm(parameters, point, 0) <= 0) return 0;
  return rootBetween(0, (2 * runaway * point.wind_mps) / rotor.radius_m, (speed_radps) =>
    netTorque_Nm(parameters, point, speed_radps),
  );
}

/** Terminal voltage at the steady speed, V. */
export function steadyVoltage_V(parameters: PlantParameters, point: WorkingPoint): number {
  const { generator, load } = parameters;
  const emf_V = generator.emfConstant_Vsprad * steadySpeed_radps(parameters, point);
  return steadyCircuit(generator, load, emf_V).voltage_V;
}

/** Torque left over for acceleration at this speed and mean wind, N·m. */
export function netTorque_Nm(
  parameters: PlantParameters,
  { wind_mps, angle_deg }: WorkingPoint,
  speed_radps: number,
): number {
  const { generator, load, rotor, airDensity_kgpm3 } = parameters;
  const flow = { airDensity_kgpm3, wind_mps };
  const line = torqueLine(rotor, angle_deg);
  const emf_V = generator.emfConstant_Vsprad * speed_radps;
  const { current_A, resistance_Ohm } = steadyCircuit(generator, load, emf_V);
  const state = { line, rotorSpeed_radps: speed_radps, filament_Ohm: resistance_Ohm };
  return (
    aerodynamicTorque_Nm(rotor, line, flow, speed_radps) +
    meanGustTorque_Nm(parameters, state, flow) -
    generator.emfConstant_Vsprad * current_A -
    generator.runningTorque_Nm
  );
}

/** Loss of torque per gain of speed at the steady speed, N·m·s: inertia over time constant. */
export function damping_Nms(parameters: PlantParameters, point: WorkingPoint): number {
  const speed = steadySpeed_radps(parameters, point);
  const step = 0.01 * speed;
  const above = netTorque_Nm(parameters, point, speed + step);
  const below = netTorque_Nm(parameters, point, speed - step);
  return (below - above) / (2 * step);
}

const STRONGEST_WIND_MPS = 20;

/** The wind that gives this terminal voltage at this blade angle, m/s. */
export function windForVoltage_mps(
  parameters: PlantParameters,
  angle_deg: number,
  voltage_V: number,
): number {
  return rootBetween(0, STRONGEST_WIND_MPS, (wind_mps) => {
    return steadyVoltage_V(parameters, { wind_mps, angle_deg }) - voltage_V;
  });
}
