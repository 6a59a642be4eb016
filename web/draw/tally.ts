/** A count as strokes: four upright, the fifth across them. */

const STROKE_GAP = 5;
const GROUP_GAP = 8;
const TOP = 2;
const BOTTOM = 14;

/** Path and width of so many strokes on a strip of 16 units' height. */
export function tallyPath(count: number): { path: string; width: number } {
  let x = 2;
  const strokes: string[] = [];
  for (let i = 0; i < count; i++) {
    if (i % 5 === 4) {
      strokes.push(`M${x - 4 * STROKE_GAP - 1} ${BOTTOM - 2}L${x - STROKE_GAP + 3} ${TOP + 2}`);
      x += GROUP_GAP - STROKE_GAP;
    } else {
      strokes.push(`M${x} ${TOP}V${BOTTOM}`);
      x += STROKE_GAP;
    }
  }
  return { path: strokes.join(''), width: x + 2 };
}
