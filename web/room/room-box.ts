/** Where everything lies in the room's drawing: shares of the height, so that every aspect fits. */
import type { LeadBox } from '../view/lead-layer.tsx';
import type { Size } from '../view/use-size.ts';

/** Of the width. */
const PLOT_WIDTH = 0.36;
/** Of the height (the unit of the style sheet, which is less on a tall screen). */
const RIGHT_MARGIN = 6.8;
const TOP = 12;
const FLOOR = 79;
const RUN = 78.3;
const CORD = 4;
/** From the end of the run to the plot. */
const BEND = 18;
const LOOSE_ROOM = 5.8;
/** From the floor to below the names. */
const NAMES = 7.4;
/** A second row ends above what is said of the plan. */
const NAME_ROWS = 2;
/** 1rem of the room, in units. */
export const REM = 4.2;

export function roomBox({ width, height, rem }: Size): LeadBox {
  const unit = rem / REM;
  const top = (height - 100 * unit) / 2;
  const plotRight = width - RIGHT_MARGIN * unit;
  const plotLeft = plotRight - PLOT_WIDTH * width;
  return {
    width,
    height: top + (FLOOR + NAMES) * unit,
    rem,
    curveRight: 0,
    plotLeft,
    plotRight,
    top: top + TOP * unit,
    bottom: top + FLOOR * unit,
    nameRows: NAME_ROWS,
    lead: {
      fromX: -2 * unit,
      bendX: plotLeft - BEND * unit,
      runY: top + RUN * unit,
      cordWidth: CORD * unit,
      looseRoom: LOOSE_ROOM * unit,
      clearX: plotLeft,
      floorY: top + FLOOR * unit,
      roundX: null,
    },
  };
}
