/** What lies behind the curve: grid lines, base line, and the names along them. */
import { AxisGrid } from './axis-grid.tsx';
import { curveX, powerY, type FieldBox } from './field-box.ts';
import type { PageState } from './page-state.ts';
import { PowerGrid } from './power-grid.tsx';
import { shareAxisOf } from './wind-plot.tsx';

interface FieldPart {
  readonly page: PageState;
  readonly box: FieldBox;
}

export function FieldGround({ page, box }: FieldPart) {
  const { field } = page.words.value.top;
  return (
    <svg class="ground" width={box.width} height={box.height} aria-hidden="true">
      <PlotGrid page={page} box={box} left={0} />
      <text class="soft" x={0} y={box.height - 0.45 * box.rem}>
        {field.minuteAgo}
      </text>
      <text class="soft" x={box.curveRight} y={box.height - 0.45 * box.rem} text-anchor="end">
        {field.now}
      </text>
    </svg>
  );
}

/** Lines of power from `left` through curve and plot; where the plot is of shares, it has its own. */
export function PlotGrid({ page, box, left }: FieldPart & { readonly left: number }) {
  const prefix = page.prefixes.value.power_W;
  const [words, axis] = [page.words.value, page.powerAxis.value];
  const power = { axis, prefix, words, left, lift: 0.35 };
  if (page.acrossBy.value !== 'share') return <PowerGrid {...power} box={box} />;
  return (
    <>
      {box.curveRight > 0 && <PowerGrid {...power} box={{ ...box, plotRight: gapEnd(box) }} />}
      <AxisGrid
        {...{ words, box, lift: 0.35 }}
        axis={shareAxisOf(page)}
        unit="%"
        exponent={-2}
        left={box.plotLeft}
      />
    </>
  );
}

/** Before a plot with an axis of its own; the curve's end where there is no room between them. */
function gapEnd({ curveRight, plotLeft, rem }: FieldBox): number {
  return Math.max(plotLeft - 0.9 * rem, curveRight);
}

/** A settled stretch that became a trial. */
interface NamedStretch {
  readonly id: number;
  readonly start_s: number;
  readonly end_s: number;
  readonly power_W: number;
  readonly isOpen: boolean;
}

export function namedStretches(page: PageState): readonly NamedStretch[] {
  const open = page.bench.open.value;
  const current = page.bench.loggedTrial.value;
  const named = page.bench.plateaus.value.flatMap(({ start_s, end_s, trialId, power_W }) =>
    trialId === null || power_W === null
      ? []
      : [{ start_s, end_s, id: trialId, power_W: power_W.value, isOpen: false }],
  );
  if (open === null || !current?.power_W) return named;
  const { id, power_W } = current;
  const end_s = page.bench.settledUntil_s.value ?? page.drawing.frame.value.now_s;
  return [...named, { start_s: open.start_s, end_s, id, power_W: power_W.value, isOpen: true }];
}

/** "trial 8" under the settled stretch that became it. */
export function StretchNames({ page, box }: FieldPart) {
  const { now_s } = page.drawing.frame.value;
  const axis = page.powerAxis.value;
  return (
    <>
      {namedStretches(page).map(({ start_s, end_s, id, power_W, isOpen }) => {
        const left = Math.max(curveX(box, start_s, now_s), 0);
        const right = curveX(box, end_s, now_s);
        const name = page.words.value.top.field.trial(id);
        const full = right - left >= (0.45 * name.length + 0.4) * box.rem;
        // A page that has not heard a sample yet does not know where on its axis a stretch lies.
        if (right - left < 1.2 * box.rem || start_s > now_s) return null;
        const below = powerY(box, axis, power_W) + 1.55 * box.rem;
        // A result near the floor has its name above it.
        const y = below > box.bottom - 0.3 * box.rem ? below - 2.2 * box.rem : below;
        return (
          <text
            key={id}
            class={isOpen ? 'now' : 'soft'}
            x={right - 0.25 * box.rem}
            y={y}
            text-anchor="end"
          >
            {full ? name : id}
          </text>
        );
      })}
    </>
  );
}
