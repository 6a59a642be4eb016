/**
 * How well is known what a trial's readings were corrected by: a Type B component (JCGM 100:2008
 * (GUM), 4.3), the same in all trials that were corrected alike.
 *
 * With v → g₁v + o₁ → g₂(…) + o₂ → … = W, and G, O all that comes after the i-th correction, a part
 * ε of its factor moves W by (W − O − G·oᵢ)·ε, and an amount δ of its offset by G·δ.
 */
import type { Cause, Effect, Quantity } from '../../instrument/causes.ts';
import { AS_MEASURED, type Correctable, type Line } from '../correction.ts';
import type { Trial } from '../trial.ts';

export type CorrectedTrial = Pick<Trial, 'correction' | 'readBy'>;

/** What a quantity's readings went through, the first first. */
export function linesOf({ correction, readBy }: CorrectedTrial, quantity: Correctable): Line[] {
  const afterwards = correction?.by[quantity];
  return [...(readBy?.[quantity] ?? []), ...(afterwards === undefined ? [] : [afterwards])];
}

/** All of them as one. */
export function asOne(lines: readonly Line[]): Line {
  return lines.reduce<Line>((before, { gain, offset }) => {
    return { gain: gain * before.gain, offset: gain * before.offset + offset };
  }, AS_MEASURED);
}

/** A correction's error, of which one standard uncertainty does so much to the value. */
export interface CorrectionError {
  readonly line: Line;
  readonly known: NonNullable<Line['knownTo']>;
  readonly effect: Effect;
}

/** Of those of which it was said how well they are known. */
export function errorsOf(lines: readonly Line[]): CorrectionError[] {
  return lines.flatMap((line, i) => {
    const known = line.knownTo;
    if (known === undefined) return [];
    const { gain, offset } = asOne(lines.slice(i + 1));
    const effect =
      known.of === 'gain'
        ? { gain: 1, offset: -(offset + gain * line.offset) }
        : { gain: 0, offset: gain };
    return [{ line, known, effect }];
  });
}

export function isUnsaid(lines: readonly Line[]): boolean {
  return lines.some(({ knownTo }) => knownTo === undefined);
}

const NOTHING: Effect = { gain: 0, offset: 0 };
const OF = { voltage: 'voltage_V', current: 'current_A' } as const;
const SI = { voltage: 'V', current: 'A' } as const;

/** @param sign of the value: budgets work with values without it, and offsets turn with it */
export function correctionCauses(trial: CorrectedTrial, channel: Quantity, sign: number): Cause[] {
  return errorsOf(linesOf(trial, OF[channel])).map(({ line, known, effect }): Cause => {
    const turned = { gain: effect.gain, offset: sign * effect.offset };
    return {
      name: 'correction',
      channel,
      unit: known.of === 'gain' ? 'ratio' : SI[channel],
      standardUncertainty: known.standardUncertainty,
      distribution: known.distribution,
      isCommon: true,
      commonAs: `correction ${channel} ${JSON.stringify(line)}`,
      voltage: channel === 'voltage' ? turned : NOTHING,
      current: channel === 'current' ? turned : NOTHING,
    };
  });
}
