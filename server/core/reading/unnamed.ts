/** Numbers that nothing names: what a person is shown of them, and the names that may be given. */
import { columnNamed, splitFields } from '#protocol/plain-header.ts';
import type { Configuration } from '../configuration.ts';
import type { Obstacle } from '../obstacle.ts';
import { layoutOfColumns } from './layout.ts';
import type { Reader } from './state.ts';

/** What a number of a plain line can be said to be; an empty name says that it is not used. */
export const COLUMN_NAMES = [
  '',
  'voltage_V',
  'voltage_mV',
  'current_A',
  'current_mA',
  'current_uA',
  'wind_mps',
  'wind_kmph',
  'wind_mph',
  'rotor_rpm',
  'time_ms',
  'time_us',
  'time_s',
  'seq',
] as const;
export type ColumnName = (typeof COLUMN_NAMES)[number];

/** The fields of the newest line that nothing names, as they came; null while there is none. */
export function unnamedFields({ unmapped, connection }: Reader): readonly string[] | null {
  return unmapped && connection.unnamedLine !== null ? splitFields(connection.unnamedLine) : null;
}

/** Why lines could not be read with columns of these names, null when they can. */
export function columnsObstacle(
  names: readonly ColumnName[],
  configuration: Configuration,
): Obstacle | null {
  const columns = names.map(columnNamed);
  for (const role of ['time', 'sequence'] as const) {
    if (columns.filter((column) => column.role === role).length > 1) {
      const message =
        role === 'time' ? 'Only one number can be the time.' : 'Only one number can count the lines.';
      return { message, about: [role] };
    }
  }
  const { layout, notices } = layoutOfColumns({ columns, separator: null }, configuration);
  const twice = notices.find(({ code }) => code === 'column-twice');
  if (twice !== undefined) {
    const message = 'Two numbers can’t be the same quantity: say of one that it is not used.';
    return { message, about: ['twice'] };
  }
  if (layout !== null) return null;
  const message = 'Say at least which number is the voltage, the current or the wind.';
  return { message, about: ['none'] };
}
