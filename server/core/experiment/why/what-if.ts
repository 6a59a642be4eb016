/** What one thing would change if there were more or less of it: a model's guess, with its doubt. */
import { MIDDLE, type BenchRig } from '../../rotor/bench-rig.ts';
import { drawnRig, heavier, type DrawnRig } from '../../rotor/doubt.ts';
import { operate, setBlades } from '../../rotor/operating-point.ts';
import type { Doubt } from '../../rotor/predict-setting.ts';

export interface WhatIf {
  /** Which gives the most; `unsure`: what is not known of the rig decides. */
  readonly verdict: 'less' | 'more' | 'same' | 'unsure';
  /** Of the draws, those that say the same as the rig as said. */
  readonly agreeing: number;
  /** At the load. */
  readonly less_W: number;
  readonly same_W: number;
  readonly more_W: number;
}

export interface Change {
  readonly less: number;
  readonly more: number;
  readonly apply: (rig: BenchRig, factor: number) => BenchRig;
}

export const LOAD: Change = {
  less: 0.5,
  more: 2,
  apply: (rig, factor) => ({ ...rig, load: heavier(rig.load, factor) }),
};

export const LENGTH: Change = {
  less: 0.75,
  more: 1.25,
  apply: ({ rotor, ...rig }, factor) => {
    const radius_m = rotor.hubRadius_m + factor * (rotor.radius_m - rotor.hubRadius_m);
    return { ...rig, rotor: { ...rotor, radius_m } };
  },
};

/** A gain below this is none. */
const WORTH_SAYING = 0.05;
/** Share of the draws that have to agree. */
const SURE = 0.8;
/** Of the draws that are looked at: enough for a share. */
const MOST_DRAWS = 100;

export function whatIf(
  set: { readonly rig: BenchRig; readonly angle_deg: number },
  change: Change,
  { uncertainty, draws }: Doubt,
): WhatIf {
  const asSaid = powersOf({ ...set, blades: MIDDLE }, change);
  const gain = gainOf(asSaid);
  const drawn = draws.slice(0, MOST_DRAWS).map((draw) => {
    return gainOf(powersOf(drawnRig(set, uncertainty, draw), change));
  });
  const agreeing = drawn.filter((one) => one === gain).length / drawn.length;
  return { ...asSaid, agreeing, verdict: agreeing >= SURE ? gain : 'unsure' };
}

type Powers = Pick<WhatIf, 'less_W' | 'same_W' | 'more_W'>;

function powersOf({ rig, angle_deg, blades }: DrawnRig, { less, more, apply }: Change): Powers {
  const power_W = (factor: number): number => {
    const changed = setBlades(apply(rig, factor), angle_deg, blades);
    const { voltage_V, current_A } = operate(changed).point;
    return voltage_V * current_A;
  };
  return { less_W: power_W(less), same_W: power_W(1), more_W: power_W(more) };
}

function gainOf({ less_W, same_W, more_W }: Powers): 'less' | 'more' | 'same' {
  if (Math.max(less_W, more_W) <= (1 + WORTH_SAYING) * same_W) return 'same';
  return less_W > more_W ? 'less' : 'more';
}
