/** Threads, cord and slot: from the power curve to where the trial to come will stand. */
import { DASH } from '../draw/trial-marks.ts';
import { frayedStrands, layThreads, type Cord, type Gait, type Threads } from '../draw/threads.ts';
import {
  hasThreads,
  isCutOff,
  meanPower_W,
  powerLevel_W,
  shownThreads,
  type Judgement,
  type Stage,
} from '../model/stage.ts';
import { acrossOf } from './answer-plot.tsx';
import { curveX, powerY, type FieldBox } from './field-box.ts';
import type { Audience } from './audience.ts';

interface LayerParts {
  readonly page: Audience;
  readonly box: FieldBox;
}

/** How fast the wave of loose threads runs, radians a second. */
export const WAVE_SPEED = 1.6;

export function ThreadLayer({ page, box }: LayerParts) {
  const stage = page.bench.stage.value;
  const judgement = page.bench.judgement.value;
  const slot = slotOf({ page, box }, stage, judgement);
  if (isCutOff(stage)) return <Frayed page={page} box={box} judgement={judgement} />;
  if (judgement === null || !hasThreads(stage)) {
    if (!awaitsTrial(page)) return <g data-threads="none" />;
    return (
      <g data-threads="none">
        <line class="dotted" x1={box.curveRight} x2={slot.x} y1={slot.y} y2={slot.y} />
        <Slot slot={slot} box={box} isFilled={false} />
      </g>
    );
  }
  const threads = threadsAt({ page, box }, stage, judgement, slot.x);
  const isLogged = stage === 'logged';
  return (
    <g
      class={stage === 'disturbed' ? 'threads broken' : 'threads'}
      data-threads={threads.loose.length}
    >
      {threads.loose.map((path, i) => (
        <path key={i} class="loose" d={path} />
      ))}
      {threads.cord !== null && <CordLine cord={threads.cord} isLogged={isLogged} />}
      {!isLogged && <Slot slot={slot} box={box} isFilled={stage === 'still'} />}
    </g>
  );
}

/** Whether a slot waits for a trial: not once all runs of the plan have theirs. */
export function awaitsTrial({ bench }: Audience): boolean {
  return bench.experiment.value.step !== 'finished';
}

/**
 * Where the cord and the slot stand, as the large figure has it: power now; the stretch's mean once
 * it is settled; the trial once it is logged. The middle of it all where power only swings.
 */
export function levelShown_W(page: Audience, stage: Stage, judgement: Judgement): number {
  const now_W = powerLevel_W(judgement);
  if (stage === 'unsettled') return meanPower_W(judgement.threads);
  if (stage === 'still') return judgement.power_W?.mean ?? now_W;
  if (stage === 'logged') return page.bench.loggedTrial.value?.power_W?.value ?? now_W;
  return now_W;
}

interface SlotPlace {
  /** Left edge. */
  readonly x: number;
  /** Middle. */
  readonly y: number;
  readonly width: number;
}

/** The slot stands at the height of power now; on the floor while nothing turns. */
export function slotOf(
  { page, box }: LayerParts,
  stage: Stage,
  judgement: Judgement | null,
): SlotPlace {
  const { slotX, dash } = acrossOf(page, box);
  const level_W =
    judgement === null || !hasThreads(stage) ? 0 : levelShown_W(page, stage, judgement);
  const y = powerY(box, page.powerAxis.value, Number.isFinite(level_W) ? level_W : 0);
  const width = dash * box.rem;
  return { x: slotX - width / 2, y, width };
}

function threadsAt(
  { page, box }: LayerParts,
  stage: Stage,
  judgement: Judgement,
  slotX: number,
): Threads {
  const { now_s } = page.drawing.frame.value;
  const axis = page.powerAxis.value;
  return layThreads(
    shownThreads(stage, judgement),
    page.powerCurve.value,
    {
      xOf: (time_s) => Math.min(Math.max(curveX(box, time_s, now_s), 0), box.curveRight),
      yOf: (power_W) => powerY(box, axis, power_W),
      nowX: box.curveRight,
      slotX,
      cordWidth: DASH.height * box.rem,
      rem: box.rem,
    },
    {
      level_W: levelShown_W(page, stage, judgement),
      gait: gaitOf(page, stage),
      phase: now_s * WAVE_SPEED,
    },
  );
}

export function gaitOf(page: Audience, stage: Stage): Gait {
  if (page.settings.reducedMotion.value) return 'straight';
  return stage === 'unsettled' ? 'crossing' : 'waver';
}

function CordLine({ cord, isLogged }: { cord: Cord; isLogged: boolean }) {
  return (
    <line
      class={isLogged ? 'cord logged' : 'cord'}
      x1={cord.x}
      x2={cord.toX + 1}
      y1={cord.y}
      y2={cord.y}
      stroke-width={cord.width}
    />
  );
}

interface SlotProps {
  readonly slot: SlotPlace;
  readonly box: FieldBox;
  readonly isFilled: boolean;
}

export function Slot({ slot, box, isFilled }: SlotProps) {
  const height = DASH.height * box.rem;
  return (
    <rect
      class={isFilled ? 'dash' : 'slot'}
      x={slot.x}
      y={slot.y - height / 2}
      width={slot.width}
      height={height}
    />
  );
}

/** The link is cut: so is the cord, where the readings end. */
function Frayed({ page, box, judgement }: LayerParts & { judgement: Judgement | null }) {
  if (judgement === null || judgement.threads.length === 0) return <g data-threads="cut" />;
  const { now_s } = page.drawing.frame.value;
  const x = Math.min(Math.max(curveX(box, judgement.time_s, now_s), 0), box.curveRight);
  const y = powerY(box, page.powerAxis.value, powerLevel_W(judgement));
  return (
    <g class="threads frayed" data-threads="cut">
      {frayedStrands(x, y, box.rem).map((path, i) => (
        <path key={i} d={path} />
      ))}
    </g>
  );
}
