/** Measured power of each level beside the band in which a model expects it, on one axis. */
import { useRef } from 'preact/hooks';
import type { KnownWhy } from '#core/experiment/why/why.ts';
import type { WhyLevel } from '#core/experiment/why/why-level.ts';
import { niceAxis, type Axis } from '../draw/axis.ts';
import { farHow, modelPrefix } from '../model/why-text.ts';
import { KINDS, unitOf } from '../model/quantities.ts';
import { powerY, type PlotBox } from '../view/field-box.ts';
import { PowerGrid } from '../view/power-grid.tsx';
import { HEAD_ROOM, PictureHead } from '../view/picture-head.tsx';
import { SavePicture } from '../view/save-picture.tsx';
import { rem_px, useSize, type Size } from '../view/use-size.ts';
import type { WhyPageState } from './state.ts';

/** Room for the names of the grid lines, above the plot and below it, rem. */
const LABEL_ROOM = 4.5;
const ABOVE = 2.6;
const BELOW = 3.2;
const HEADROOM = 1.04;
/** Of the room that a level has. */
const BAND_SHARE = 0.4;
const WIDEST_BAND = 3.2;
/** Of a letter, bold: names that are wider than their room stand in two rows. */
const LETTER = 0.65;

interface PlotProps {
  readonly page: WhyPageState;
  readonly why: KnownWhy;
}

export function ExpectedPlot({ page, why }: PlotProps) {
  const host = useRef<HTMLDivElement>(null);
  const size = useSize(host);
  const title = titleOf(page, why);
  const { caption } = page.say.value;
  return (
    <figure class="expected-plot">
      <div class="plot-room" ref={host}>
        {size.width > 0 && (
          <svg
            class="expected-drawing"
            viewBox={`0 0 ${size.width} ${size.height}`}
            role="img"
            aria-label={`${title}. ${caption}`}
          >
            <text class="plot-title" x="0" y={1.1 * size.rem}>
              {title}
            </text>
            <Marks page={page} why={why} box={boxOf(size, ABOVE)} />
          </svg>
        )}
      </div>
      <figcaption>{caption}</figcaption>
      <SavePicture
        words={page.words.value}
        title={title}
        name="expected"
        draw={() => <ExpectedPicture page={page} why={why} />}
      />
    </figure>
  );
}

function titleOf({ words }: WhyPageState, why: KnownWhy): string {
  return `${words.value.plan.powerAt(why.factor.name)}, ${unitOf('power_W', modelPrefix(why))}`;
}

/** Of a picture, rem: wide enough for the names of many levels. */
const PICTURE = { width: 46, height: 27, key: 1.8 } as const;

/** The same to be read by itself: with its origin, and a key in place of the caption. */
function ExpectedPicture({ page, why }: PlotProps) {
  const rem = rem_px();
  const [width, height, key] = [PICTURE.width * rem, PICTURE.height * rem, PICTURE.key * rem];
  const { model, measured } = page.say.value;
  const y = height + key - 0.5 * rem;
  return (
    <svg class="picture expected-drawing" viewBox={`0 0 ${width} ${height + key}`}>
      <PictureHead page={page} title={titleOf(page, why)} right={width} rem={rem} />
      <Marks page={page} why={why} box={boxOf({ width, height, rem }, HEAD_ROOM + 1)} />
      <circle class="measured" cx={0.7 * rem} cy={y - 0.3 * rem} r={0.42 * rem} />
      <text x={1.8 * rem} y={y}>
        {measured}
      </text>
      <rect
        class="expected"
        x={12 * rem}
        y={y - 0.8 * rem}
        width={1.6 * rem}
        height={0.95 * rem}
      />
      <text x={14.2 * rem} y={y}>
        {model}
      </text>
    </svg>
  );
}

function boxOf({ width, height, rem }: Size, above: number): PlotBox {
  const [top, bottom] = [above * rem, height - BELOW * rem];
  return { height, rem, plotLeft: 0, plotRight: width, top, bottom };
}

interface MarksProps {
  readonly page: WhyPageState;
  readonly why: KnownWhy;
  readonly box: PlotBox;
}

function Marks({ page, why, box }: MarksProps) {
  const axis = axisOf(why);
  const { levels } = why;
  const each = (box.plotRight - LABEL_ROOM * box.rem) / levels.length;
  const longest = Math.max(...levels.map(({ label }) => label.length));
  const isTight = LETTER * box.rem * longest > each;
  return (
    <>
      <PowerGrid
        axis={axis}
        prefix={modelPrefix(why)}
        words={page.words.value}
        box={box}
        left={0}
        lift={0.3}
      />
      {levels.map((level, i) => {
        const row = isTight && i % 2 === 1 ? 1 : 0;
        const at = { box, axis, x: each * (i + 0.5), each, row };
        return <LevelMark key={level.label} page={page} level={level} {...at} />;
      })}
    </>
  );
}

interface MarkProps {
  readonly page: WhyPageState;
  readonly level: WhyLevel;
  readonly box: PlotBox;
  readonly axis: Axis;
  /** Its middle. */
  readonly x: number;
  readonly each: number;
  /** That its name stands in. */
  readonly row: number;
}

function LevelMark({ page, level, box, axis, x, each, row }: MarkProps) {
  const say = page.say.value;
  const half = Math.min(BAND_SHARE * each, WIDEST_BAND * box.rem) / 2;
  const y = (power_W: number): number => powerY(box, axis, power_W);
  const { loadPower_W, loadPowerLow_W, loadPowerHigh_W } = level.point;
  const far = farHow(level);
  return (
    <g class={far === null ? 'level' : 'level far'} data-level={level.label}>
      <rect
        class="expected"
        x={x - half}
        width={2 * half}
        y={y(loadPowerHigh_W)}
        height={Math.max(y(loadPowerLow_W) - y(loadPowerHigh_W), 1)}
      />
      <path class="expected" d={`M${x - half} ${y(loadPower_W)}H${x + half}`} />
      <MeasuredMark level={level} x={x} y={y} rem={box.rem} />
      <text
        class="level-name"
        x={x}
        y={box.bottom + (1.35 + 1.2 * row) * box.rem}
        text-anchor="middle"
      >
        {level.label}
      </text>
      <text class="soft" x={x} y={box.bottom + 2.75 * box.rem} text-anchor="middle">
        {far !== null ? say.isFar[far] : stateOf(level, say)}
      </text>
    </g>
  );
}

function stateOf({ measured }: WhyLevel, say: WhyPageState['say']['value']): string {
  if (measured === null) return say.notTried;
  return measured.count === 0 ? say.didNotTurn : '';
}

interface MeasuredProps {
  readonly level: WhyLevel;
  readonly x: number;
  readonly y: (power_W: number) => number;
  readonly rem: number;
}

/** What did not turn is an outlined dash on the floor, as on every plot. */
function MeasuredMark({ level: { measured }, x, y, rem }: MeasuredProps) {
  if (measured === null) return null;
  if (measured.count === 0) {
    return <rect
        class="slot"
        x={x - 0.75 * rem}
        width={1.5 * rem}
        y={y(0) - 0.225 * rem}
        height={0.45 * rem}
      />;
  }
  const { mean_W, low_W, high_W } = measured;
  return (
    <>
      {low_W !== null && high_W !== null && (
        <line class="measured" x1={x} x2={x} y1={y(Math.max(low_W, 0))} y2={y(high_W)} />
      )}
      <circle class="measured" cx={x} cy={y(mean_W)} r={0.42 * rem} />
    </>
  );
}

function axisOf({ levels }: KnownWhy): Axis {
  const most = levels.map(({ measured, point }) => {
    return Math.max(point.loadPowerHigh_W, measured?.high_W ?? measured?.mean_W ?? 0);
  });
  return niceAxis(0, Math.max(...most) * HEADROOM, KINDS.power_W.usual);
}
