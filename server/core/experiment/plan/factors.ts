/** Factors and levels: what a trial carries of them, and how people read them. */
import { NO_VALUE } from '../../metrology/format.ts';
import type { Factor, Level, Plan, Run } from './plan.ts';
import { partsOf, type Setting } from './run-id.ts';

/** Whether its levels are numbers, in the unit that its key ends with. */
export function isNumeric({ levels }: Pick<Factor, 'levels'>): boolean {
  return levels.every(({ value }) => value !== null);
}

/** What a trial carries of a level: its number, or its name where it has none. */
export function valueOf({ value, label }: Level): number | string {
  return value ?? label;
}

/** As a reader compares names: capitals and the kind of blank don't make two of one. */
export function plainName(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase();
}

/** A level as people read it; "–" where the factor has no such level. */
export function labelOf(factor: Pick<Factor, 'levels'>, index: number): string {
  return factor.levels[index]?.label ?? NO_VALUE;
}

/** What the rig is set to with these levels of the plan's factors. */
export function settingOf(plan: Pick<Plan, 'factors'>, levels: readonly number[]): Setting {
  const held = plan.factors.flatMap(({ key, levels: all }, i) => {
    const level = all[levels[i] ?? -1];
    return level === undefined ? [] : [[key, valueOf(level)] as const];
  });
  return Object.fromEntries(held);
}

/** `Trial.factors` of a run. Of what the plan no longer has, the run's id still tells. */
export function factorsOf(
  plan: Pick<Plan, 'factors'>,
  run: Pick<Run, 'id' | 'levels'>,
): Record<string, number | string> {
  return { ...partsOf(run.id)?.setting, ...settingOf(plan, run.levels) };
}

/** A run's levels as people read them: "25°, short"; also what the plan had before. */
export function levelWords(
  plan: Pick<Plan, 'factors'>,
  run: Pick<Run, 'id' | 'levels' | 'lastWords'>,
): string {
  if (run.lastWords !== undefined) return run.lastWords;
  const setting = partsOf(run.id)?.setting ?? {};
  const words = plan.factors.map((factor, i) => {
    const level = factor.levels[run.levels[i] ?? -1];
    return level?.label ?? String(setting[factor.key] ?? NO_VALUE);
  });
  return words.join(', ');
}
