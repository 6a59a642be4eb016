/** Rows of a table that the session has already, because it was imported before or came from here. */
import type { ShownTrial } from '../trial.ts';
import type { ImportedTrial } from './row.ts';

type Values = ImportedTrial['values'];
const QUANTITIES = [
  'voltage_V',
  'current_A',
  'power_W',
  'windSpeed_mps',
  'rotorSpeed_radps',
] as const satisfies readonly (keyof Values)[];

/** Numbers that were written out and read in again differ by no more than this share. */
const WRITTEN_OUT = 1e-9;

/**
 * For each row the number of the trial that it is already; each trial is met once. What was struck
 * here may be brought in again, but not what is struck in the table too.
 */
export function presentRows(
  rows: readonly Pick<ImportedTrial, 'factors' | 'values' | 'struck'>[],
  trials: readonly Pick<ShownTrial, 'id' | 'factors' | 'struck' | keyof Values>[],
): (number | null)[] {
  const free = [...trials];
  return rows.map(({ factors, values, struck }) => {
    const place = free.findIndex(
      (one) =>
        (struck || !one.struck) && sameSetting(one.factors, factors) && sameTrial(one, values),
    );
    return place < 0 ? null : (free.splice(place, 1)[0]?.id ?? null);
  });
}

function sameSetting(a: ShownTrial['factors'], b: ShownTrial['factors']): boolean {
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => a[key] === b[key]);
}

/** Whether all that both tell of what was measured is the same. */
export function sameTrial(a: Values, b: Values): boolean {
  return QUANTITIES.every((quantity) => {
    const [one, other] = [a[quantity]?.value, b[quantity]?.value];
    if (one === undefined || other === undefined) return one === other;
    return Math.abs(one - other) <= WRITTEN_OUT * Math.max(Math.abs(one), Math.abs(other));
  });
}
