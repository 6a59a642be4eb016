/** Grid lines with their powers. */
import type { Prefix } from '#core/metrology/format.ts';
import { unitOf } from '../model/quantities.ts';
import { AxisGrid, type GridProps } from './axis-grid.tsx';

interface PowerGridProps extends Omit<GridProps, 'unit' | 'exponent'> {
  readonly prefix: Prefix;
}

export function PowerGrid({ prefix, ...grid }: PowerGridProps) {
  return <AxisGrid {...grid} unit={unitOf('power_W', prefix)} exponent={prefix.exponent} />;
}
