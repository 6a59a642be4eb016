/** The answer plot against wind: trials, the bins of their power curve, and what stands on it. */
import { UNIT_SPACE } from '#core/metrology/format.ts';
import { BETZ_LIMIT } from '#core/rotor/wind/wind-power.ts';
import { niceAxis, pixelOf, type Axis } from '../draw/axis.ts';
import { acrossByWind, type Across, type Ground } from '../draw/trial-marks.ts';
import {
  asShares,
  atRotorsWind,
  onCurve,
  powerMeans,
  shareAxis,
  shareMeans,
} from '../draw/wind-marks.ts';
import type { Audience } from './audience.ts';
import type { FieldBox, PlotBox } from './field-box.ts';
import type { WatchState } from './watch-state.ts';

/** By power, with the rings of the bins once there is a curve. */
export function acrossWind({ bench, windCurve }: WatchState, ground: Ground): Across {
  const channels = bench.judgement.value?.channels;
  const now = channels?.find(({ channel }) => channel === 'windSpeed_mps');
  const curve = windCurve.value;
  const trials = bench.trials.value;
  if (curve?.kind !== 'known') return acrossByWind(trials, now?.level ?? null, ground);
  const placed = atRotorsWind(trials, curve.trials);
  return onCurve(acrossByWind(placed, now?.level ?? null, ground, powerMeans(curve.bins)));
}

/** By share; the slot waits before the plot, for its height is a power. */
export function acrossShare(page: WatchState, box: FieldBox, ground: Ground): Across {
  const curve = page.windCurve.value;
  const slotX = (box.curveRight + box.plotLeft) / 2;
  if (curve?.kind !== 'known') return { ...acrossByWind([], null, ground), slotX };
  const trials = asShares(page.bench.trials.value, curve.trials);
  return { ...onCurve(acrossByWind(trials, null, ground, shareMeans(curve.bins))), slotX };
}

export function shareAxisOf({ windCurve }: WatchState): Axis {
  const curve = windCurve.value;
  if (curve?.kind !== 'known') return niceAxis(0, BETZ_LIMIT, BETZ_LIMIT);
  return shareAxis(curve.trials, shareMeans(curve.bins));
}

interface SignsProps {
  readonly page: Audience;
  readonly box: PlotBox;
}

/** What the two lines at a ring are, Betz's limit, and what is missing. */
export function WindSigns({ page, box }: SignsProps) {
  const way = page.acrossBy.value;
  const curve = page.windCurve.value;
  if (curve === null || (way !== 'wind' && way !== 'share')) return null;
  const say = page.words.value.bench.plot;
  const isKnown = curve.kind === 'known';
  return (
    <g class="wind-signs">
      {isKnown && !isNarrow(box) && <LineKey {...say} box={box} />}
      {way === 'share' && <BetzLimit axis={shareAxisOf(page)} words={page.words.value} box={box} />}
      {way === 'share' && !isKnown && <Wrapped text={say.sayRotor} box={box} />}
    </g>
  );
}

/** On a phone: words would stand on the marks. */
function isNarrow({ plotLeft, plotRight, rem }: PlotBox): boolean {
  return plotRight - plotLeft < 20 * rem;
}

interface LineKeyProps {
  readonly scatter: string;
  readonly instruments: string;
  readonly box: PlotBox;
}

function LineKey({ scatter, instruments, box: { plotLeft, top, rem } }: LineKeyProps) {
  const rows = [
    { name: scatter, look: 'interval' },
    { name: instruments, look: 'interval common' },
  ];
  return (
    <>
      {rows.map(({ name, look }, i) => {
        const y = top + (1 + 1.25 * i) * rem;
        return (
          <g key={look}>
            <line
              class={look}
              x1={plotLeft + 0.5 * rem}
              x2={plotLeft + 0.5 * rem}
              y1={y - 0.8 * rem}
              y2={y + 0.1 * rem}
            />
            <text class="soft" x={plotLeft + 1.1 * rem} y={y}>
              {name}
            </text>
          </g>
        );
      })}
    </>
  );
}

interface BetzProps {
  readonly axis: Axis;
  readonly words: Audience['words']['value'];
  readonly box: PlotBox;
}

/** A line where it is on the plot, else the word that it is above. */
export function BetzLimit({ axis, words, box }: BetzProps) {
  const { plotLeft, plotRight, top, bottom, rem } = box;
  const say = words.bench.plot;
  const percent = `${words.number((100 * BETZ_LIMIT).toFixed(1))}${UNIT_SPACE}%`;
  const isShown = axis.high >= BETZ_LIMIT;
  const above = isNarrow(box) ? bottom - 0.2 * rem : top - 0.1 * rem;
  const y = isShown ? pixelOf(BETZ_LIMIT, axis, top, bottom) : above;
  return (
    <>
      {isShown && <line class="betz" x1={plotLeft} x2={plotRight} y1={y} y2={y} />}
      <text class="soft" x={plotRight - 4.2 * rem} y={y - 0.3 * rem} text-anchor="end">
        {isShown ? say.betz(percent) : `↑ ${say.betzAbove(percent)}`}
      </text>
    </>
  );
}

/** Of a line of words, rem. */
const LETTER = 0.47;

/** SVG breaks no lines. */
function Wrapped({ text, box }: { text: string; box: PlotBox }) {
  const { plotLeft, plotRight, top, bottom, rem } = box;
  const room = Math.floor((plotRight - plotLeft - 6 * rem) / (LETTER * rem));
  const lines = text.split(' ').reduce<string[]>((all, word) => {
    const last = all.at(-1);
    if (last === undefined || last.length + word.length >= room) return [...all, word];
    return [...all.slice(0, -1), `${last} ${word}`];
  }, []);
  return (
    <>
      {lines.map((line, i) => (
        <text key={i} x={plotLeft + 0.5 * rem} y={(top + bottom) / 2 + (1.3 * i - 1) * rem}>
          {line}
        </text>
      ))}
    </>
  );
}
