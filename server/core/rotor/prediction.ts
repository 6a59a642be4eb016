/** What a rig should give at each blade angle, and as it is varied: a model's answer, with bands. */
import { windPower_W, type BenchRig } from './bench-rig.ts';
import { bestLevel, type BestLevel } from './best-level.ts';
import { predictSetting, type Doubt } from './predict-setting.ts';
import type { PredictedAngle } from './predicted-point.ts';
import { remarksOn } from './prediction-remarks.ts';
import { predictVariations, type Variation, type Variations } from './variations.ts';

export interface PredictionQuestion extends Doubt {
  readonly rig: BenchRig;
  readonly angles_deg: readonly number[];
  readonly vary: Variations;
}

export interface BestAngle extends Omit<BestLevel, 'level'> {
  /** Null where the rotor starts at none. */
  readonly angle_deg: number | null;
}

export interface Prediction {
  readonly method: 'blade element momentum model';
  readonly airDensity_kgpm3: number;
  readonly windPower_W: number;
  /** In the order asked for. */
  readonly angles: readonly PredictedAngle[];
  readonly best: BestAngle;
  /** Blade length, number of blades and load, each by itself, at the best of the angles. */
  readonly variations: readonly Variation[];
  /** What a person should know of single angles: slow, or only when pushed. */
  readonly remarks: readonly string[];
  readonly limits: readonly string[];
}

/** Of the model, whatever the rig. */
export const LIMITS = [
  'A model, not a measurement: trust the order of the angles more than the watts.',
  "It takes an even wind along the axis. A fan's jet is slower in its middle, swirls, and blades longer than the jet sweep still air (rotor.jetRadius_m says how wide it is).",
  'It takes thin plates at the low Reynolds numbers of a bench, measured once and read off coarsely; rough, thick or bent blades differ.',
];

export function predict(question: PredictionQuestion): Prediction {
  const { rig, angles_deg, vary } = question;
  const settings = angles_deg.map((angle_deg) => predictSetting({ rig, angle_deg }, question));
  const angles = settings.map(({ point }, i) => ({ angle_deg: angles_deg[i]!, ...point }));
  const { level, ...best } = bestLevel(ANGLE, settings.map((setting, i) => {
    return { level: angles_deg[i]!, ...setting };
  }));
  return {
    method: 'blade element momentum model',
    airDensity_kgpm3: rig.airDensity_kgpm3,
    windPower_W: windPower_W(rig),
    angles,
    best: { angle_deg: level, ...best },
    variations: predictVariations({ rig, angle_deg: level ?? angles_deg[0]! }, vary, question),
    remarks: remarksOn(angles),
    limits: LIMITS,
  };
}

const ANGLE = { one: 'angle', many: 'angles', written: (angle: number) => `${angle}°` };
