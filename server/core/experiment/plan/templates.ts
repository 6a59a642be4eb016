/**
 * Plans for the three classic questions, to begin with and to change. The rig is our own: a hub
 * with twelve holes, flat card blades on dowels, a lamp. Nothing in them is a recommendation of
 * this level over that.
 */
import { UNIT_SPACE } from '../../metrology/format.ts';
import { PlanSchema, type Constant, type Level, type Plan } from './plan.ts';

const DISTANCE = { name: 'Fan to rotor', value: '40 cm' };
const FAN = { name: 'Fan setting', value: 'middle' };
const LOAD = { name: 'Load', value: 'the same lamp' };
const ANGLE = { name: 'Blade angle', value: '20°' };
const LENGTH = { name: 'Blade length', value: '80 mm' };
const COUNT = { name: 'Number of blades', value: '3' };
const BLADES = { name: 'Blade type', value: 'flat card, 30 mm wide' };

/** Which blade angle? Measured from the circle that the blades draw. */
export function anglePlan(seed: number): Plan {
  return questionPlan({
    seed,
    question: 'Which blade angle gives the most power?',
    factor: { kind: 'angle', key: 'angle_deg', name: 'Blade angle' },
    levels: [8, 20, 35, 50, 70].map((value) => ({ label: `${value}°`, value })),
    constants: [DISTANCE, FAN, LOAD, BLADES, LENGTH, COUNT],
  });
}

/** Which blade length? */
export function lengthPlan(seed: number): Plan {
  return questionPlan({
    seed,
    question: 'Which blade length gives the most power?',
    factor: { kind: 'length', key: 'length_m', name: 'Blade length' },
    levels: [
      { label: `short, 55${UNIT_SPACE}mm`, value: 0.055 },
      { label: `medium, 80${UNIT_SPACE}mm`, value: 0.08 },
      { label: `long, 105${UNIT_SPACE}mm`, value: 0.105 },
    ],
    constants: [DISTANCE, FAN, LOAD, BLADES, ANGLE, COUNT],
  });
}

/** How many blades? Numbers that twelve holes share out evenly; one alone would shake the hub. */
export function bladesPlan(seed: number): Plan {
  return questionPlan({
    seed,
    question: 'How many blades give the most power?',
    factor: { kind: 'blades', key: 'blades', name: 'Number of blades' },
    levels: [2, 3, 4, 6].map((value) => ({ label: String(value), value })),
    constants: [DISTANCE, FAN, LOAD, BLADES, ANGLE, LENGTH],
  });
}

interface Question {
  readonly seed: number;
  readonly question: string;
  readonly factor: Pick<Plan['factors'][number], 'kind' | 'key' | 'name'>;
  readonly levels: Level[];
  readonly constants: Constant[];
}

function questionPlan({ seed, question, factor, levels, constants }: Question): Plan {
  return PlanSchema.parse({
    question,
    factors: [{ ...factor, levels }],
    design: 'single',
    rounds: 3,
    order: 'random',
    seed,
    constants,
  });
}
