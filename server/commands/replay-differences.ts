import type { Trial } from '#core/experiment/trial.ts';

/** One field of one trial revision that derives otherwise than it was stored. */
export interface Difference {
  readonly trialId: number;
  readonly revision: number;
  readonly field: string;
  readonly stored: string;
  readonly derived: string;
}

/** Numbers derived by another engine may differ by rounding in elementary functions. */
const OTHER_ENGINE_TOLERANCE = 1e-12;

/**
 * Compares stored with derived revisions, matched by trial and revision.
 * @param exact demand identity to the last bit, else relative agreement within 1e-12
 */
export function compareTrials(
  stored: readonly Trial[],
  derived: readonly Trial[],
  exact: boolean,
): Difference[] {
  const key = ({ id, revision }: Trial): string => `${id}/${revision}`;
  const derivedByKey = new Map(derived.map((trial) => [key(trial), trial]));
  const differences: Difference[] = [];
  for (const trial of stored) {
    const again = derivedByKey.get(key(trial));
    derivedByKey.delete(key(trial));
    if (again === undefined) differences.push(missing(trial, 'present', 'missing'));
    else differences.push(...compareOne(trial, again, exact));
  }
  for (const trial of derivedByKey.values()) differences.push(missing(trial, 'missing', 'present'));
  return differences;
}

function missing({ id, revision }: Trial, stored: string, derived: string): Difference {
  return { trialId: id, revision, field: 'trial', stored, derived };
}

function compareOne(stored: Trial, again: Trial, exact: boolean): Difference[] {
  const derived = { ...again };
  // An earlier version kept no gusts: that they are known now changes nothing that was stored.
  if (!exact && stored.windGusts === undefined) delete derived.windGusts;
  const storedFields = flatten(stored);
  const derivedFields = flatten(derived);
  const fields = new Set([...storedFields.keys(), ...derivedFields.keys()]);
  const differences: Difference[] = [];
  for (const field of fields) {
    const was = storedFields.get(field);
    const now = derivedFields.get(field);
    if (agree(was, now, exact)) continue;
    differences.push({
      trialId: stored.id,
      revision: stored.revision,
      field,
      stored: String(was),
      derived: String(now),
    });
  }
  return differences;
}

function agree(a: unknown, b: unknown, exact: boolean): boolean {
  if (a === b) return true;
  if (exact || typeof a !== 'number' || typeof b !== 'number') return false;
  return Math.abs(a - b) <= OTHER_ENGINE_TOLERANCE * Math.max(Math.abs(a), Math.abs(b));
}

/** Leaves by dotted path, so that a difference can be named. */
function flatten(value: unknown, path = '', leaves = new Map<string, unknown>()): Map<string, unknown> {
  if (value === null || typeof value !== 'object') return leaves.set(path, value);
  for (const [key, inner] of Object.entries(value)) {
    flatten(inner, path === '' ? key : `${path}.${key}`, leaves);
  }
  return leaves;
}
