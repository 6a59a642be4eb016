/** An operator at work: a list of plant events, and what each stretch between them is. */
import type { PlantEvent } from '#core/virtual-rig/plant.ts';
import {
  steadyVoltage_V,
  windForVoltage_mps,
  damping_Nms,
} from '#core/virtual-rig/steady-state.ts';
import { between, chance, logBetween, type Random } from '#core/virtual-rig/random.ts';
import type { TimedEvent } from '#core/virtual-rig/rig.ts';
import type { DrawnRig } from './rig-draw.ts';
import type { Stretch } from './truth.ts';

export interface Script {
  readonly rig: DrawnRig;
  readonly random: Random;
  /** Voltage at the nominal wind and first blade angle. */
  readonly nominal_V: number;
  readonly duration_s: number;
  readonly events: TimedEvent[];
  readonly stretches: Stretch[];
  time_s: number;
  angle_deg: number;
  wind_mps: number;
  /** The level now, relative to the nominal voltage. */
  level: number;
}

export function startScript(rig: DrawnRig, random: Random): Script {
  const { plant, angle_deg } = rig.parameters;
  const script: Script = {
    rig,
    random,
    nominal_V: steadyVoltage_V(plant, { wind_mps: rig.wind_mps, angle_deg }),
    duration_s: between(random, 170, 260),
    events: [],
    stretches: [],
    time_s: 0,
    angle_deg,
    wind_mps: 0,
    level: 0,
  };
  stretch(script, 'still', between(random, 0.5, 4));
  return script;
}

export function isOver(script: Script): boolean {
  return script.time_s >= script.duration_s;
}

export function act(script: Script, event: PlantEvent): void {
  script.events.push({ at_s: script.time_s, event });
}

/** Lets time pass. */
export function stretch(script: Script, use: Stretch['use'], length_s: number): void {
  const start_s = script.time_s;
  script.time_s += length_s;
  script.stretches.push({ start_s, end_s: script.time_s, use, wind: script.wind_mps > 0 });
}

/** Sets the fan so that the voltage goes to `level` times the nominal one. */
export function goTo(script: Script, level: number): void {
  const { plant } = script.rig.parameters;
  script.wind_mps = windForVoltage_mps(plant, script.angle_deg, level * script.nominal_V);
  script.level = level;
  act(script, { kind: 'fan', wind_mps: script.wind_mps });
}

export function stop(script: Script): void {
  script.wind_mps = 0;
  script.level = 0;
  act(script, { kind: 'fan', wind_mps: 0 });
  stretch(script, 'still', between(script.random, 4, 12));
}

export function setBlades(script: Script, angle_deg: number): void {
  script.angle_deg = angle_deg;
  act(script, { kind: 'angle', angle_deg });
}

/** Time constant of the rotor at the present working point, s. */
export function timeConstant_s({ rig, wind_mps, angle_deg }: Script): number {
  const { plant } = rig.parameters;
  return plant.rotor.inertia_kgm2 / damping_Nms(plant, { wind_mps, angle_deg });
}

/** About the time from the last change to within 1 % of the level. */
export function settlingTime_s(script: Script, change: number): number {
  const { fanLag_s } = script.rig.parameters.plant.jet;
  const ratio = Math.max(1, Math.abs(change) / (0.01 * script.level));
  return (timeConstant_s(script) + fanLag_s) * Math.log(ratio);
}

/** A stretch long enough to settle and then to stay for `plateau_s`. */
export function settleFor(script: Script, change: number, plateau_s: number): void {
  stretch(script, 'level', settlingTime_s(script, change) + plateau_s);
}

/** The next level, at least 8 % of nominal away from the present one. */
export function anotherLevel(script: Script): number {
  for (;;) {
    const level = between(script.random, 0.4, 1);
    if (Math.abs(level - script.level) >= 0.08) return level;
  }
}

export function plateauLength_s(script: Script): number {
  return logBetween(script.random, 6, 60);
}

/** One ordinary change: to another level directly, or by a full stop, there perhaps new blades. */
export function ordinaryChange(script: Script, plateau_s: number): void {
  const { random } = script;
  if (script.level > 0 && chance(random, 0.3)) {
    stop(script);
    if (chance(random, 0.5)) setBlades(script, between(random, 15, 45));
  }
  const before = script.level;
  goTo(script, anotherLevel(script));
  settleFor(script, script.level - before, plateau_s);
}
