/** The dash of a trial: whole, or parted so that settings side by side are told apart by form. */

export interface DashBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Rectangles as shares of the dash's box: left, top, width, height. */
const FORMS: readonly (readonly (readonly [number, number, number, number])[])[] = [
  [[0, 0, 1, 1]],
  [
    [0, 0, 1, 0.3],
    [0, 0.7, 1, 0.3],
  ],
  [
    [0, 0, 0.38, 1],
    [0.62, 0, 0.38, 1],
  ],
  [
    [0, 0, 0.2, 1],
    [0.4, 0, 0.2, 1],
    [0.8, 0, 0.2, 1],
  ],
];

/** How many forms there are; further settings share them and stand apart by place and name. */
export const DASH_FORMS = FORMS.length;

/** Path of a dash in its n-th form. */
export function dashShape(n: number, { left, top, width, height }: DashBox): string {
  const parts = FORMS[n % DASH_FORMS] ?? [];
  return parts
    .map(([x, y, w, h]) => {
      const [x0, y0] = [left + x * width, top + y * height];
      return `M${px(x0)} ${px(y0)}h${px(w * width)}v${px(h * height)}h${px(-w * width)}Z`;
    })
    .join('');
}

function px(value: number): string {
  return String(Math.round(value * 100) / 100);
}
