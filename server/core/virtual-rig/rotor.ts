/**
 * The rotor as the virtual rig turns it: flat blades at one angle, reduced to a torque that falls
 * in a straight line with the tip speed ratio. Enough to spin up, settle, stall and stop like a
 * small rotor; not a prediction of any rotor's power.
 *
 * A plate at the blade angle β from the rotor plane feels at standstill a normal force that goes
 * with the sine of its angle to the wind (90° − β), of which the share sin β turns the rotor:
 * torque ∝ sin β cos β, nothing at 90°. Unloaded it runs up until the air slides along the blade.
 */
export interface Rotor {
  readonly radius_m: number;
  readonly inertia_kgm2: number;
  /** Torque coefficient at standstill of blades at 45°, 0.04 to 0.13 for three flat blades. */
  readonly startTorqueCoefficient: number;
  /** Drag torque = windage · speed²: the blades' own drag and the hub's, N·m·s². */
  readonly windage_Nms2: number;
}

/** Torque coefficient = start · (1 − tip speed ratio / runaway). */
export interface TorqueLine {
  readonly start: number;
  /** Tip speed ratio without load; 0 for blades that can't turn. */
  readonly runaway: number;
}

/** The air slides along a blade at three quarters of the radius, where it works hardest. */
const WORKING_RADIUS = 0.75;
/** Below about 11° drag, not the blade angle, limits the speed. */
const HIGHEST_RUNAWAY = 7;

export function torqueLine(rotor: Rotor, angle_deg: number): TorqueLine {
  const angle_rad = (angle_deg * Math.PI) / 180;
  const start = rotor.startTorqueCoefficient * Math.sin(2 * angle_rad);
  if (angle_deg <= 0 || angle_deg >= 90) return { start: 0, runaway: 0 };
  return { start, runaway: Math.min(HIGHEST_RUNAWAY, 1 / Math.tan(angle_rad) / WORKING_RADIUS) };
}

/** Highest power coefficient that the line allows, at half the runaway tip speed ratio. */
export function bestPowerCoefficient(line: TorqueLine): number {
  return (line.start * line.runaway) / 4;
}

export interface Flow {
  readonly airDensity_kgpm3: number;
  readonly wind_mps: number;
}

/** Torque of the air on the rotor, N·m, windage taken off. */
export function aerodynamicTorque_Nm(
  rotor: Rotor,
  line: TorqueLine,
  flow: Flow,
  speed_radps: number,
): number {
  const wind = flow.wind_mps;
  const drive = wind * wind - wind * speed_radps * slip(rotor, line);
  return torqueScale(rotor, line, flow) * drive - rotor.windage_Nms2 * speed_radps * speed_radps;
}

/** Torque per squared wind on the standing rotor, N·m·s²/m². */
export function torqueScale(rotor: Rotor, line: TorqueLine, flow: Flow): number {
  return 0.5 * flow.airDensity_kgpm3 * Math.PI * rotor.radius_m ** 3 * line.start;
}

/** Metres of wind that one radian of unloaded rotor lets pass. */
export function slip(rotor: Rotor, line: TorqueLine): number {
  return line.runaway > 0 ? rotor.radius_m / line.runaway : 0;
}
