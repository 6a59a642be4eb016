/** What the columns of a table of trials hold, by their names in its first row. */
import { columnNamed } from '#protocol/plain-header.ts';
import type { Conversion, QuantityName } from '#protocol/quantity.ts';
import type { Factor } from '../plan/plan.ts';
import type { DerivedTrial } from '../trial-life.ts';

/** The quantities of a trial that a table can bring. */
export type ImportedQuantity = keyof Pick<
  DerivedTrial,
  'voltage_V' | 'current_A' | 'power_W' | 'windSpeed_mps' | 'rotorSpeed_radps'
>;

export type ImportColumn = { readonly name: string } & (
  | { readonly as: 'value'; readonly quantity: ImportedQuantity; readonly conversion: Conversion }
  /** Standard uncertainty of a value, in a unit of its quantity: u_voltage_mV. */
  | { readonly as: 'uncertainty'; readonly quantity: ImportedQuantity; readonly conversion: Conversion }
  /** Its degrees of freedom: dof_voltage. */
  | { readonly as: 'degrees'; readonly quantity: ImportedQuantity }
  /** Level of a factor; `conversion` to the unit of the trial's key. */
  | { readonly as: 'factor'; readonly key: string; readonly conversion: Conversion }
  | { readonly as: Role | 'unused' }
  /** A quantity that is known, without a unit or with one that is not. */
  | { readonly as: 'without-unit'; readonly units: readonly string[] }
);

const AS_IT_IS: Conversion = { multiplier: 1, divisor: 1 };
const POWER_UNITS: Readonly<Record<string, Conversion>> = {
  W: AS_IT_IS,
  mW: { multiplier: 1, divisor: 1e3 },
};
const LENGTH_UNITS: Readonly<Record<string, Conversion>> = {
  m: AS_IT_IS,
  cm: { multiplier: 1, divisor: 1e2 },
  mm: { multiplier: 1, divisor: 1e3 },
};

const QUANTITIES: Readonly<Partial<Record<QuantityName, ImportedQuantity>>> = {
  voltage: 'voltage_V',
  current: 'current_A',
  windSpeed: 'windSpeed_mps',
  rotorSpeed: 'rotorSpeed_radps',
};

type Role =
  | 'run'
  | 'round'
  | 'group'
  | 'note'
  | 'struck'
  | 'strikeReason'
  | 'rotorStill'
  | 'recorded'
  | 'simulated';

const ROLES: Readonly<Record<string, Role>> = {
  run: 'run',
  round: 'round',
  block: 'round',
  group: 'group',
  rig: 'group',
  note: 'note',
  struck: 'struck',
  strike_reason: 'strikeReason',
  rotor_still: 'rotorStill',
  recorded: 'recorded',
  simulated: 'simulated',
};

/** What an exported table (server/carry/trial-columns.ts) tells besides; none of it is a factor. */
const OWN_NAMES: ReadonlySet<string> = new Set([
  ...['trial', 'powerCoefficient', 'u_powerCoefficient', 'dof_powerCoefficient', 'state', 'basis'],
  ...['turned_radps', 'u_turned_radps', 'turned_by', 'tipSpeedRatio', 'u_tipSpeedRatio'],
  ...['origin', 'recorded_at', 'recording', 'start_s', 'end_s', 'declared_s', 'sample_count'],
  ...['revision', 'checksum'],
]);

/** Whether the table was exported from here: then an empty cell says what it says there. */
export function isOwnTable(names: readonly string[]): boolean {
  return names.includes('trial') && names.includes('checksum');
}

/**
 * @param factors those of the plan; null: there is none, and every column that is nothing else is
 * a factor
 */
export function importColumn(name: string, factors: readonly Factor[] | null): ImportColumn {
  // A factor that is called like another column is exported as factor_NAME.
  const key = /^factor_(.+)$/.exec(name)?.[1] ?? name;
  const planned = factors?.find((factor) => factor.key === key);
  if (planned !== undefined) return { name, as: 'factor', key, conversion: AS_IT_IS };
  const role = ROLES[name.toLowerCase()];
  if (role !== undefined) return { name, as: role };
  if (OWN_NAMES.has(name)) return { name, as: 'unused' };
  const uncertain = /^u_(.+)$/.exec(name)?.[1];
  if (uncertain !== undefined) {
    const column = valueColumn(uncertain);
    if (column.as === 'value') return { ...column, name, as: 'uncertainty' };
  }
  const degrees = /^dof_(.+)$/.exec(name)?.[1];
  if (degrees !== undefined) {
    const quantity = quantityCalled(degrees);
    if (quantity !== null) return { name, as: 'degrees', quantity };
  }
  const column = valueColumn(name);
  return column.as === 'unused' ? factorColumn(name, factors) : column;
}

/** A column of values; `unused` for a name that is none of a quantity. */
function valueColumn(name: string): ImportColumn {
  const [stem, unit] = splitName(name);
  if (stem.toLowerCase() === 'power' || name.toLowerCase() === 'power') {
    const conversion = Object.hasOwn(POWER_UNITS, unit) ? POWER_UNITS[unit] : undefined;
    return conversion === undefined
      ? { name, as: 'without-unit', units: Object.keys(POWER_UNITS) }
      : { name, as: 'value', quantity: 'power_W', conversion };
  }
  const column = columnNamed(name);
  if (column.role === 'ignored' && column.units.length > 0 && !/^time/i.test(name)) {
    return { name, as: 'without-unit', units: column.units };
  }
  const quantity = column.role === 'quantity' ? QUANTITIES[column.quantity] : undefined;
  if (column.role !== 'quantity' || quantity === undefined) return { name, as: 'unused' };
  return { name, as: 'value', quantity, conversion: column.conversion };
}

/** The quantity of dof_voltage, dof_wind, dof_power. */
function quantityCalled(stem: string): ImportedQuantity | null {
  if (stem.toLowerCase() === 'power') return 'power_W';
  // Any unit will do: only the name counts.
  for (const unit of ['V', 'A', 'mps', 'rpm']) {
    const column = valueColumn(`${stem}_${unit}`);
    if (column.as === 'value') return column.quantity;
  }
  return null;
}

/** What a trial's level could be called; times, counters and sensors of the air are none. */
function factorColumn(name: string, factors: readonly Factor[] | null): ImportColumn {
  const [stem, unit] = splitName(name);
  const inUnit = factors?.find(({ key }) => {
    const [keyStem, keyUnit] = splitName(key);
    return keyStem === stem && [keyUnit, unit].every((one) => Object.hasOwn(LENGTH_UNITS, one));
  });
  if (inUnit !== undefined) {
    const { multiplier, divisor } = LENGTH_UNITS[unit] ?? AS_IT_IS;
    const own = LENGTH_UNITS[splitName(inUnit.key)[1]] ?? AS_IT_IS;
    const conversion = { multiplier: multiplier * own.divisor, divisor: divisor * own.multiplier };
    return { name, as: 'factor', key: inUnit.key, conversion };
  }
  const isKey = /^[A-Za-z]\w{0,39}$/.test(name);
  const isOther = columnNamed(name).role !== 'ignored' || /^(time|date|id$)/i.test(name);
  if (factors !== null || !isKey || isOther) return { name, as: 'unused' };
  return { name, as: 'factor', key: name, conversion: AS_IT_IS };
}

/** "length_mm" in name and unit; no unit is "". */
function splitName(name: string): readonly [stem: string, unit: string] {
  const split = name.lastIndexOf('_');
  return split < 0 ? [name, ''] : [name.slice(0, split), name.slice(split + 1)];
}
