/**
 * The operator of the demonstration rig, who never tires: stop the fan, set the next blade angle,
 * start the fan, wait for about fifteen seconds of settled reading. The five angles come in a
 * new random order every round, and now and then somebody's hand gets in the way.
 */
import type { PlantParameters } from './plant.ts';
import { damping_Nms } from './steady-state.ts';
import { between, chance, shuffled, type Random } from './random.ts';
import type { TimedEvent } from './rig.ts';

export interface DemoOperator {
  readonly random: Random;
  readonly plant: PlantParameters;
  readonly wind_mps: number;
  readonly angles_deg: readonly number[];
  /** Angles of this round still to come. */
  round_deg: number[];
  /** The moment up to which everything is planned. */
  plannedTo_s: number;
}

const FIRST_START_S = 3;
const HAND_SHARE = 0.2;

/** What the operator does from `plannedTo_s` on, up to the end of the next settled reading. */
export function nextVisit(operator: DemoOperator): TimedEvent[] {
  const { random } = operator;
  const events: TimedEvent[] = [];
  const act = (event: TimedEvent['event']): number =>
    events.push({ at_s: operator.plannedTo_s, event });
  const pass = (seconds: number): void => {
    operator.plannedTo_s += seconds;
  };
  if (operator.plannedTo_s > 0) {
    act({ kind: 'fan', wind_mps: 0 });
    pass(between(random, 6, 9));
  }
  const angle_deg = nextAngle_deg(operator);
  act({ kind: 'angle', angle_deg });
  pass(operator.plannedTo_s > 0 ? between(random, 2, 4) : FIRST_START_S);
  act({ kind: 'fan', wind_mps: operator.wind_mps });
  const settling_s = settlingTime_s(operator, angle_deg);
  pass(settling_s + between(random, 14, 18));
  if (chance(random, HAND_SHARE)) {
    act({ kind: 'obstruction', passes: between(random, 0.4, 0.7) });
    pass(between(random, 1.5, 3));
    act({ kind: 'obstruction', passes: 1 });
    pass(settling_s + between(random, 8, 14));
  }
  return events;
}

function nextAngle_deg(operator: DemoOperator): number {
  if (operator.round_deg.length === 0) {
    operator.round_deg = shuffled(operator.random, operator.angles_deg);
  }
  return operator.round_deg.shift()!;
}

/** About the time from starting the fan to within 1 % of the level. */
function settlingTime_s({ plant, wind_mps }: DemoOperator, angle_deg: number): number {
  const lag_s = plant.rotor.inertia_kgm2 / damping_Nms(plant, { wind_mps, angle_deg });
  return Math.log(100) * (lag_s + plant.jet.fanLag_s);
}
