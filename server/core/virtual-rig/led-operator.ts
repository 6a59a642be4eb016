/**
 * The operator of the demonstration rig who is led through a plan: does what is said, at a person's
 * pace, and has four mishaps in every plan: a blade slips, somebody bumps into the wind, the cable
 * comes out, and once the next level is set without stopping the fan.
 */
import type { Step } from '../experiment/view.ts';
import type { Trial } from '../experiment/trial.ts';
import type { PlantEvent } from './plant.ts';
import { between, shuffled, type Random } from './random.ts';
import type { TimedEvent } from './rig.ts';
import type { Rotor } from './rotor.ts';

/** What the operator is told: the step, and the run that it is about. */
export interface Instruction {
  readonly step: Step;
  readonly runId: string | null;
  /** What the rig is to be set to at the step `set-blades`. */
  readonly factors: Trial['factors'];
  /** What comes after the run that was logged; {} when nothing does. */
  readonly nextFactors: Trial['factors'];
  /** The run's wind as a share of the strongest; 1 where the plan leaves the fan as it is. */
  readonly fanShare: number;
  /** Ids of all runs, in order. */
  readonly runIds: readonly string[];
}

const MISHAPS = ['slip', 'bump', 'unplug', 'never-stopped'] as const;
type Mishap = (typeof MISHAPS)[number];

export interface LedOperator {
  readonly random: Random;
  readonly rotor: Rotor;
  readonly wind_mps: number;
  fanIsOn: boolean;
  angle_deg: number;
  /** Which run each mishap comes in; decided when the plan is known. */
  mishaps: ReadonlyMap<string, Mishap>;
  /** What has been taken up already. */
  heard: string;
  /** When the blades slipped last; whoever stands beside them sees it. */
  slippedAt_s: number;
  /** The runs whose mishap has been. */
  readonly had: Set<string>;
}

export interface PressEvent {
  readonly at_s: number;
  readonly event: { readonly kind: 'strike' };
}

export interface CableEvent {
  readonly at_s: number;
  readonly event: { readonly kind: 'cable'; readonly isIn: boolean };
}

/** Something done by hand: to the plant, to the cable, or with the button on the board. */
export type Deed = TimedEvent | CableEvent | PressEvent;

export function createLedOperator(
  given: Pick<LedOperator, 'random' | 'rotor' | 'wind_mps' | 'angle_deg'>,
): LedOperator {
  return { ...given, fanIsOn: false, mishaps: new Map(), heard: '', slippedAt_s: Infinity, had: new Set() };
}

/** What the operator does about an instruction that is new at `now_s`, in order of time. */
export function obey(operator: LedOperator, instruction: Instruction, now_s: number): Deed[] {
  const heard = `${instruction.step} ${instruction.runId}`;
  if (heard === operator.heard) return [];
  operator.heard = heard;
  if (operator.mishaps.size === 0) operator.mishaps = mishapsOf(operator, instruction.runIds);
  switch (instruction.step) {
    case 'set-blades':
      return visit(operator, instruction, now_s + between(operator.random, 3, 8));
    case 'start-fan':
      return startFan(operator, instruction, now_s + between(operator.random, 2, 4));
    case 'logged':
      return hearLogged(operator, instruction, now_s);
    case 'stop-fan':
    case 'blades-stopping':
    case 'finished':
      return stopFan(operator, now_s + between(operator.random, 2, 5));
    case 'settling':
    case 'read-meters':
    case 'no-plan':
      return [];
  }
}

function hearLogged(operator: LedOperator, instruction: Instruction, now_s: number): Deed[] {
  if (takeMishap(operator, instruction.runId, 'never-stopped')) {
    return goOnWithoutStopping(operator, instruction, now_s);
  }
  const at_s = now_s + between(operator.random, 2, 5);
  // Logged with blades that had slipped before: such a trial is struck at once.
  const isSpoilt = operator.slippedAt_s < now_s;
  const strike: Deed[] = isSpoilt ? [{ at_s: now_s + 1, event: { kind: 'strike' } }] : [];
  return [...strike, ...stopFan(operator, at_s)];
}

/** Four different runs, none of the first three and not the last: by then the rig is known. */
function mishapsOf({ random }: LedOperator, runIds: readonly string[]): LedOperator['mishaps'] {
  const runs = shuffled(random, runIds.slice(3, -1));
  return new Map(runs.slice(0, MISHAPS.length).map((run, i) => [run, MISHAPS[i]!]));
}

function takeMishap({ mishaps, had }: LedOperator, runId: string | null, which: Mishap): boolean {
  if (runId === null || had.has(runId) || mishaps.get(runId) !== which) return false;
  had.add(runId);
  return true;
}

function visit(operator: LedOperator, instruction: Instruction, at_s: number): Deed[] {
  const set = setTo(operator, instruction.factors).map((event) => ({ at_s, event }));
  return [...set, ...startFan(operator, instruction, at_s + between(operator.random, 2, 4))];
}

function startFan(
  operator: LedOperator,
  { runId, fanShare }: Instruction,
  at_s: number,
): Deed[] {
  operator.fanIsOn = true;
  const wind_mps = operator.wind_mps * fanShare;
  const deeds: Deed[] = [{ at_s, event: { kind: 'fan', wind_mps } }];
  if (takeMishap(operator, runId, 'bump')) deeds.push(...bump(operator, at_s));
  if (takeMishap(operator, runId, 'slip')) deeds.push(slip(operator, at_s));
  if (takeMishap(operator, runId, 'unplug')) deeds.push(...unplug(operator, at_s));
  return deeds;
}

/** A person walks through the wind while it settles. */
function bump({ random }: LedOperator, start_s: number): Deed[] {
  const from_s = start_s + between(random, 3, 14);
  const to_s = from_s + between(random, 1.5, 3);
  return [
    { at_s: from_s, event: { kind: 'obstruction', passes: between(random, 0.4, 0.7) } },
    { at_s: to_s, event: { kind: 'obstruction', passes: 1 } },
  ];
}

/** The blades turn in their holes by some degrees once they have been steady for a while. */
function slip(operator: LedOperator, start_s: number): Deed {
  const { random } = operator;
  operator.angle_deg += between(random, 8, 14);
  operator.slippedAt_s = start_s + between(random, 10, 18);
  return { at_s: operator.slippedAt_s, event: { kind: 'angle', angle_deg: operator.angle_deg } };
}

function unplug({ random }: LedOperator, start_s: number): Deed[] {
  const at_s = start_s + between(random, 4, 20);
  return [
    { at_s, event: { kind: 'cable', isIn: false } },
    { at_s: at_s + between(random, 3, 6), event: { kind: 'cable', isIn: true } },
  ];
}

/** The next level is set while the fan blows; it takes a while until that is noticed. */
function goOnWithoutStopping(
  operator: LedOperator,
  { nextFactors }: Instruction,
  now_s: number,
): Deed[] {
  const at_s = now_s + between(operator.random, 3, 5);
  const set = setTo(operator, nextFactors).map((event) => ({ at_s, event }));
  return [...set, ...stopFan(operator, at_s + between(operator.random, 20, 30))];
}

function stopFan(operator: LedOperator, at_s: number): Deed[] {
  if (!operator.fanIsOn) return [];
  operator.fanIsOn = false;
  return [{ at_s, event: { kind: 'fan', wind_mps: 0 } }];
}

/** Radius at the blades' roots, m: hub and dowels. */
const ROOT_M = 0.085;
/** The demonstration rotor as it is built. */
const BUILT = { length_m: 0.105, blades: 3 };

/** What has to be done to the rig for these levels, of factors that it has. */
function setTo(operator: LedOperator, factors: Trial['factors']): PlantEvent[] {
  const { angle_deg, length_m, blades } = factors;
  const events: PlantEvent[] = [];
  if (typeof length_m === 'number' || typeof blades === 'number') {
    events.push({ kind: 'rotor', rotor: rotorWith(operator.rotor, factors) });
  }
  // Blades are put back to where they belong, though only something else was to be changed.
  if (typeof angle_deg === 'number') operator.angle_deg = angle_deg;
  operator.slippedAt_s = Infinity;
  events.push({ kind: 'angle', angle_deg: operator.angle_deg });
  return events;
}

/**
 * The rotor with other blades: mass goes with their length and number, grip at standstill a little
 * less than with their number, since they take each other's wind. Made up, not measured.
 */
function rotorWith(
  rotor: Rotor,
  { length_m, blades }: Trial['factors'],
): Rotor {
  const radius_m = ROOT_M + (typeof length_m === 'number' ? length_m : BUILT.length_m);
  const share = (typeof blades === 'number' ? blades : BUILT.blades) / BUILT.blades;
  const size = radius_m / (ROOT_M + BUILT.length_m);
  return {
    radius_m,
    inertia_kgm2: rotor.inertia_kgm2 * share * size ** 3,
    startTorqueCoefficient: rotor.startTorqueCoefficient * share ** 0.7,
    windage_Nms2: rotor.windage_Nms2 * share * size ** 4,
  };
}
