/** Where everything lies in the phone's drawing, CSS pixels. */
import type { LeadBox } from '../view/lead-layer.tsx';
import type { Size } from '../view/use-size.ts';

export function followBox({ width, height, rem }: Size): LeadBox {
  return {
    width,
    height,
    rem,
    curveRight: 0,
    plotLeft: 3 * rem,
    plotRight: width - 1.1 * rem,
    top: 8.6 * rem,
    bottom: height - 2.1 * rem,
    lead: {
      fromX: width + 0.5 * rem,
      bendX: 5.6 * rem,
      runY: 1.1 * rem,
      cordWidth: 0.95 * rem,
      looseRoom: 1.7 * rem,
      clearX: 0,
      floorY: height,
      roundX: 0.9 * rem,
    },
  };
}
