/**
 * What somebody has read at the generator's terminals, and what can be concluded of it. What can't
 * be: without the rotor's speed the constant; and where the speed was free to fall with the load,
 * the winding's resistance, of which the slope of voltage over current is then only an upper
 * limit, −dV/dI = R + k·(−dω/dI).
 */
import { z } from 'zod';
import { fitGenerator, fitSource, type SpunStep } from './fit-generator.ts';
import { isVague, type Fitted } from './fitted.ts';

/** read: at each step; held: not read, but the same at each; free: it fell as it liked. */
export const SPEEDS = ['read', 'held', 'free'] as const;

/** Larger ones are a slip of the unit. */
export const STEP_LIMITS = {
  rotorSpeed_radps: { low: 0, high: 5000 },
  voltage_V: { low: 0, high: 100 },
  current_A: { low: 0, high: 20 },
} as const;
/** More are no table that somebody types. */
export const MOST_STEPS = 100;

function within(name: keyof typeof STEP_LIMITS): z.ZodNumber {
  return z.number().min(STEP_LIMITS[name].low).max(STEP_LIMITS[name].high);
}

export const LoadStepSchema = z.strictObject({
  voltage_V: within('voltage_V'),
  current_A: within('current_A'),
});

export const GeneratorReadingsSchema = z
  .strictObject({
    speed: z.enum(SPEEDS),
    steps: z
      .array(LoadStepSchema.extend({ rotorSpeed_radps: within('rotorSpeed_radps').nullable() }))
      .min(1)
      .max(MOST_STEPS)
      .readonly(),
  })
  .readonly();
export type GeneratorReadings = z.infer<typeof GeneratorReadingsSchema>;

/** What is still missing, or makes it worth less than it might be. */
export const GENERATOR_GAPS = [
  /** Nothing can be told of fewer. */
  'two currents',
  'a speed',
  /** The slope rises: it was not the same speed. */
  'same speed',
  /** The constant needs the rotor's speed. */
  'speed for the constant',
  /** The winding's resistance needs the speed, read or held. */
  'speed for the winding',
  /** The winding's resistance needs a current. */
  'a load',
  /** How sure it is shows in one reading more than there are unknowns. */
  'one more',
  /** What there is scatters too much, or lies too close together. */
  'wider apart',
] as const;
export type GeneratorGap = (typeof GENERATOR_GAPS)[number];

export interface GeneratorConclusion {
  readonly emfConstant_Vsprad: Fitted | null;
  readonly resistance_Ohm: Fitted | null;
  /** Where the speed was free to fall; null where nothing of the kind can be said. */
  readonly resistanceAtMost_Ohm: number | null;
  /** The line through the readings, where it was one speed, or one wind. */
  readonly emf_V: Fitted | null;
  /** Read less fitted, of each step; empty where there is no fit. */
  readonly residuals_V: readonly number[];
  readonly gaps: readonly GeneratorGap[];
}

const NOTHING: GeneratorConclusion = {
  emfConstant_Vsprad: null,
  resistance_Ohm: null,
  resistanceAtMost_Ohm: null,
  emf_V: null,
  residuals_V: [],
  gaps: [],
};

export function concludeGenerator(readings: GeneratorReadings): GeneratorConclusion {
  return readings.speed === 'read' ? ofSpunSteps(readings) : ofOneSource(readings);
}

function ofSpunSteps({ steps }: GeneratorReadings): GeneratorConclusion {
  const spun = steps.map(({ rotorSpeed_radps, ...step }): SpunStep => {
    return { ...step, rotorSpeed_radps: rotorSpeed_radps ?? 0 };
  });
  const fit = fitGenerator(spun);
  if (fit === 'too-few') {
    const isTurning = spun.some((step) => step.rotorSpeed_radps > 0);
    return { ...NOTHING, gaps: [isTurning ? 'two currents' : 'a speed'] };
  }
  if (fit === 'speed-not-held') return { ...NOTHING, gaps: ['same speed'] };
  const { emfConstant_Vsprad, resistance_Ohm } = fit;
  const drop_Ohm = resistance_Ohm?.value ?? 0;
  return {
    ...NOTHING,
    emfConstant_Vsprad,
    resistance_Ohm,
    residuals_V: spun.map(({ rotorSpeed_radps, voltage_V, current_A }) => {
      return voltage_V - (emfConstant_Vsprad.value * rotorSpeed_radps - drop_Ohm * current_A);
    }),
    gaps: [
      ...(resistance_Ohm === null ? (['a load'] as const) : []),
      ...howSure([emfConstant_Vsprad, resistance_Ohm]),
    ],
  };
}

function ofOneSource({ speed, steps }: GeneratorReadings): GeneratorConclusion {
  const fit = fitSource(steps);
  if (fit === 'too-few') return { ...NOTHING, gaps: ['two currents'] };
  if (fit === 'speed-not-held') return { ...NOTHING, gaps: ['same speed'] };
  const { emf_V, resistance_Ohm } = fit;
  const isHeld = speed === 'held';
  return {
    ...NOTHING,
    emf_V,
    resistance_Ohm: isHeld ? resistance_Ohm : null,
    resistanceAtMost_Ohm: isHeld ? null : resistance_Ohm.value,
    residuals_V: steps.map(({ voltage_V, current_A }) => {
      return voltage_V - (emf_V.value - resistance_Ohm.value * current_A);
    }),
    gaps: [
      'speed for the constant',
      ...(isHeld ? [] : (['speed for the winding'] as const)),
      ...howSure([resistance_Ohm]),
    ],
  };
}

function howSure(fitted: readonly (Fitted | null)[]): GeneratorGap[] {
  const known = fitted.filter((one) => one !== null);
  if (known.some(({ standardUncertainty }) => standardUncertainty === null)) return ['one more'];
  return known.some(isVague) ? ['wider apart'] : [];
}
