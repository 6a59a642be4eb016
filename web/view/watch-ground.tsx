/** Grid lines with their powers, and the floor, behind an answer plot that stands alone. */
import type { FieldBox } from './field-box.ts';
import { PowerGrid } from './power-grid.tsx';
import type { WatchState } from './watch-state.ts';

export function WatchGround({ page, box }: { page: WatchState; box: FieldBox }) {
  const prefix = page.prefixes.value.power_W;
  const axis = page.powerAxis.value;
  const words = page.words.value;
  return <PowerGrid {...{ axis, prefix, words, box }} left={box.plotLeft} lift={0.2} />;
}
