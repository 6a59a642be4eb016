/**
 * Plans for the three classic questions, to begin with and to change. The rig is our own: a hub
 * with twelve holes, flat card blades on dowels, a lamp. Nothing in them is a recommendation of
 * this level over that.
 */
import { UNIT_SPACE } from '../../metrology/format.ts';
import { PlanSchema, type Constant, type Level, type Plan } from './plan.ts';

/** What a plan says to people, in their language. */
export interface TemplateWords {
  readonly question: Readonly<Record<Varied, string>>;
  readonly factor: Readonly<Record<Varied, string>>;
  readonly distance: string;
  readonly fan: Constant;
  readonly load: Constant;
  readonly blades: Constant;
  readonly short: string;
  readonly medium: string;
  readonly long: string;
}

type Varied = 'angle' | 'length' | 'blades';

export const ENGLISH: TemplateWords = {
  question: {
    angle: 'Which blade angle gives the most power?',
    length: 'Which blade length gives the most power?',
    blades: 'How many blades give the most power?',
  },
  factor: { angle: 'Blade angle', length: 'Blade length', blades: 'Number of blades' },
  distance: 'Fan to rotor',
  fan: { name: 'Fan setting', value: 'middle' },
  load: { name: 'Load', value: 'the same lamp' },
  blades: { name: 'Blade type', value: 'flat card, 30 mm wide' },
  short: 'short',
  medium: 'medium',
  long: 'long',
};

/** What each factor is held at while another is varied. */
const HELD: Readonly<Record<Varied, string>> = { angle: '20°', length: '80 mm', blades: '3' };

/** Which blade angle? Measured from the circle that the blades draw. */
export function anglePlan(seed: number, words = ENGLISH): Plan {
  const levels = [8, 20, 35, 50, 70].map((value) => ({ label: `${value}°`, value }));
  return questionPlan(seed, words, { kind: 'angle', key: 'angle_deg', levels });
}

/** Which blade length? */
export function lengthPlan(seed: number, words = ENGLISH): Plan {
  const levels = [
    { label: `${words.short}, 55${UNIT_SPACE}mm`, value: 0.055 },
    { label: `${words.medium}, 80${UNIT_SPACE}mm`, value: 0.08 },
    { label: `${words.long}, 105${UNIT_SPACE}mm`, value: 0.105 },
  ];
  return questionPlan(seed, words, { kind: 'length', key: 'length_m', levels });
}

/** How many blades? Numbers that twelve holes share out evenly; one alone would shake the hub. */
export function bladesPlan(seed: number, words = ENGLISH): Plan {
  const levels = [2, 3, 4, 6].map((value) => ({ label: String(value), value }));
  return questionPlan(seed, words, { kind: 'blades', key: 'blades', levels });
}

interface Question {
  readonly kind: Varied;
  readonly key: string;
  readonly levels: readonly Level[];
}

function questionPlan(seed: number, words: TemplateWords, { kind, key, levels }: Question): Plan {
  const held = (['angle', 'length', 'blades'] as const).filter((other) => other !== kind);
  return PlanSchema.parse({
    question: words.question[kind],
    factors: [{ kind, key, name: words.factor[kind], levels }],
    design: 'single',
    rounds: 3,
    order: 'random',
    seed,
    constants: [
      { name: words.distance, value: '40 cm' },
      words.fan,
      words.load,
      words.blades,
      ...held.map((other) => ({ name: words.factor[other], value: HELD[other] })),
    ],
  });
}
