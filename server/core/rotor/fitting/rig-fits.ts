/** Readings of generator and lamp that figures of the rig are fitted to, and those figures. */
import { z } from 'zod';
import type { Load } from '../circuit.ts';
import { USUAL_UNCERTAINTY } from '../doubt.ts';
import { asNormal, type Fitted } from './fitted.ts';
import { concludeGenerator, GeneratorReadingsSchema } from './generator-readings.ts';
import { concludeLamp, LampReadingsSchema } from './lamp-readings.ts';

/** The readings themselves are what is kept: figures are worked out of them whenever asked for. */
export const RigFitsSchema = z
  .strictObject({
    generator: GeneratorReadingsSchema.nullable(),
    lamp: LampReadingsSchema.nullable(),
  })
  .readonly();
export type RigFits = z.infer<typeof RigFitsSchema>;

export const NO_FITS: RigFits = { generator: null, lamp: null };

interface Figure<Value> {
  readonly value: Value;
  /** Standard uncertainty, as a share. */
  readonly u: number;
}

export interface RigFigures {
  readonly emfConstant_Vsprad: Figure<number> | null;
  readonly windingResistance_Ohm: Figure<number> | null;
  readonly load: Figure<Load> | null;
}

/** What all readings have in common: meters and tachometer, as a share (common practice, no source). */
const IN_COMMON = 0.01;
/** A prediction draws from a logarithmic law: beyond this a share says no more. */
const WIDEST = 0.7;

export function figuresOf({ generator, lamp }: RigFits): RigFigures {
  const spun = generator === null ? null : concludeGenerator(generator);
  const fit = lamp === null ? null : concludeLamp(lamp).fit;
  const usual = USUAL_UNCERTAINTY;
  return {
    emfConstant_Vsprad: figureOf(spun?.emfConstant_Vsprad ?? null, usual.emfConstant),
    windingResistance_Ohm: figureOf(spun?.resistance_Ohm ?? null, usual.windingResistance),
    load: fit && { value: fit.load, u: shareOf(fit.relativeUncertainty, usual.load) },
  };
}

/** @param usual where the readings do not tell how sure it is: as good as a figure that was said */
function figureOf(fitted: Fitted | null, usual: number): Figure<number> | null {
  if (fitted === null) return null;
  const spread = asNormal(fitted);
  return { value: fitted.value, u: shareOf(spread && spread / fitted.value, usual) };
}

function shareOf(scatter: number | null, usual: number): number {
  return scatter === null ? usual : Math.min(Math.hypot(scatter, IN_COMMON), WIDEST);
}
