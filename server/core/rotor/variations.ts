/**
 * The rig with one thing changed at a time: blade length, number of blades, load. Neither "longer
 * is better" nor "more blades are better" holds for every rig; the model says for this one.
 */
import type { BenchRig } from './bench-rig.ts';
import { bestLevel, type BestLevel, type FactorWords } from './best-level.ts';
import { predictSetting, type Doubt } from './predict-setting.ts';
import type { PredictedPoint } from './predicted-point.ts';

export const VARIED = ['length_m', 'blades', 'loadResistance_Ohm'] as const;
export type Varied = (typeof VARIED)[number];

/** Levels of each; none where it is not varied. */
export type Variations = { readonly [Factor in Varied]: readonly number[] };

export interface Variation {
  readonly factor: Varied;
  readonly angle_deg: number;
  readonly levels: readonly (PredictedPoint & { readonly level: number })[];
  readonly best: BestLevel;
}

interface VariedFactor extends FactorWords {
  readonly set: (rig: BenchRig, level: number) => BenchRig;
}

const FACTORS: Readonly<Record<Varied, VariedFactor>> = {
  length_m: {
    one: 'blade length',
    many: 'blade lengths',
    written: (length_m) => `A blade length of ${Number((100 * length_m).toPrecision(4))} cm`,
    set: (rig, length_m) => ({
      ...rig,
      rotor: { ...rig.rotor, radius_m: rig.rotor.hubRadius_m + length_m },
    }),
  },
  blades: {
    one: 'number of blades',
    many: 'numbers of blades',
    written: (blades) => `A rotor of ${blades} ${blades === 1 ? 'blade' : 'blades'}`,
    set: (rig, blades) => ({ ...rig, rotor: { ...rig.rotor, blades } }),
  },
  loadResistance_Ohm: {
    one: 'load',
    many: 'loads',
    written: (resistance_Ohm) => `A load of ${resistance_Ohm} Ω`,
    set: (rig, resistance_Ohm) => ({ ...rig, load: { kind: 'resistor', resistance_Ohm } }),
  },
};

/** The others stay as they are in the rig. */
export function predictVariations(
  { rig, angle_deg }: { readonly rig: BenchRig; readonly angle_deg: number },
  vary: Variations,
  doubt: Doubt,
): Variation[] {
  return VARIED.filter((factor) => vary[factor].length > 0).map((factor) => {
    const { set, ...words } = FACTORS[factor];
    const judged = vary[factor].map((level) => {
      return { level, ...predictSetting({ rig: set(rig, level), angle_deg }, doubt) };
    });
    const levels = judged.map(({ level, point }) => ({ level, ...point }));
    return { factor, angle_deg, levels, best: bestLevel(words, judged) };
  });
}
