/** A curve of the last minute as paths, as the canvas of the page has it: for pictures. */
import { pixelOf, type Axis } from '../draw/axis.ts';
import type { CurveData } from '../draw/pixel-columns.ts';
import type { Frame } from './drawing.ts';
import { curveX } from './field-box.ts';

interface StillCurveProps {
  readonly data: CurveData;
  readonly frame: Frame;
  readonly axis: Axis;
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
  /** Of what is drawn: "power" or a channel's. */
  readonly colour: string;
}

/** What moves is thin, what stands still is heavy and on tinted ground. */
export function StillCurve({ data, frame, axis, width, top, bottom, colour }: StillCurveProps) {
  const { now_s } = frame;
  const xOf = (time_s: number): number => curveX({ curveRight: width }, time_s, now_s);
  const pathOf = (values: readonly (number | null)[]): string => {
    let isOpen = false;
    return values
      .map((value, i) => {
        const verb = isOpen ? 'L' : 'M';
        isOpen = value !== null;
        if (value === null) return '';
        const x = xOf(data.time_s[i] ?? now_s).toFixed(1);
        return `${verb}${x} ${pixelOf(value, axis, top, bottom).toFixed(1)}`;
      })
      .join('');
  };
  return (
    <g class="still-curve" data-colour={colour}>
      <path class="moving" d={pathOf(data.all)} />
      <path class="settled" d={pathOf(data.settled)} />
    </g>
  );
}

type TintProps = Pick<StillCurveProps, 'frame' | 'width' | 'top' | 'bottom'>;

/** Behind grid and curve. */
export function StretchTints({ frame: { now_s, stretches }, width, top, bottom }: TintProps) {
  const xOf = (time_s: number): number => curveX({ curveRight: width }, time_s, now_s);
  return (
    <>
      {stretches.map(({ from_s, to_s }) => {
        const [left, right] = [Math.max(xOf(from_s), 0), Math.min(xOf(to_s), width)];
        if (right <= left) return null;
        return (
          <rect
            key={from_s}
            class="tint"
            x={left}
            y={top}
            width={right - left}
            height={bottom - top}
          />
        );
      })}
    </>
  );
}
