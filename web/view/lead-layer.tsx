/** Cord, threads and slot of the pages that draw no curve. */
import { layLead, type LeadPlaces } from '../draw/lead.ts';
import { frayedStrands } from '../draw/threads.ts';
import { DASH } from '../draw/trial-marks.ts';
import { hasThreads, isCutOff, shownThreads } from '../model/stage.ts';
import type { Audience } from './audience.ts';
import { powerY, type FieldBox } from './field-box.ts';
import { awaitsTrial, gaitOf, levelShown_W, Slot, slotOf, WAVE_SPEED } from './thread-layer.tsx';

/** The plot's place, and how threads come to it. */
export interface LeadBox extends FieldBox {
  readonly lead: Omit<LeadPlaces, 'slotX' | 'endWidth' | 'yOf'>;
}

export function LeadLayer({ page, box }: { page: Audience; box: LeadBox }) {
  const { lead, rem } = box;
  const stage = page.bench.stage.value;
  const judgement = page.bench.judgement.value;
  const slot = slotOf({ page, box }, stage, judgement);
  if (isCutOff(stage)) return <Cut box={box} />;
  if (judgement === null || !hasThreads(stage)) {
    if (stage !== 'waiting' || !awaitsTrial(page)) return <g data-threads="none" />;
    const floorY = powerY(box, page.powerAxis.value, 0);
    return (
      <g data-threads="none">
        <path class="dotted" d={restPath(box, slot.x, floorY)} />
        <Slot slot={slot} box={box} isFilled={false} />
      </g>
    );
  }
  const places: LeadPlaces = {
    ...lead,
    slotX: slot.x,
    endWidth: DASH.height * rem,
    yOf: (power_W) => powerY(box, page.powerAxis.value, power_W),
  };
  const { cord, loose } = layLead(shownThreads(stage, judgement), places, {
    level_W: levelShown_W(page, stage, judgement),
    gait: gaitOf(page, stage),
    phase: page.drawing.frame.value.now_s * WAVE_SPEED,
  });
  const isLogged = stage === 'logged';
  return (
    <g class={stage === 'disturbed' ? 'threads broken' : 'threads'} data-threads={loose.length}>
      {loose.map((path, i) => (
        <path key={i} class="loose" d={path} />
      ))}
      {cord !== null && <path class={isLogged ? 'lead logged' : 'lead'} d={cord} />}
      {!isLogged && <Slot slot={slot} box={box} isFilled={stage === 'still'} />}
    </g>
  );
}

/** Nothing turns: the line along which the cord will lie, then the floor. */
function restPath({ lead }: LeadBox, slotX: number, floorY: number): string {
  return lead.roundX === null
    ? `M${Math.max(lead.fromX, 0)} ${floorY}H${slotX}`
    : `M${lead.fromX} ${lead.runY}H${lead.bendX}`;
}

/** A cord cut off at the edge it comes in from. */
function Cut({ box: { lead, rem } }: { box: LeadBox }) {
  const towardsRight = lead.roundX === null;
  const edge = towardsRight ? 0 : lead.fromX;
  const strands = frayedStrands(0, 0, rem * (towardsRight ? 2 : 1.6));
  const turn = towardsRight ? ' scale(1 .5)' : ' scale(-1 .8)';
  return (
    <g
      class="threads frayed"
      data-threads="cut"
      transform={`translate(${edge} ${lead.runY})${turn}`}
    >
      {strands.map((path, i) => (
        <path key={i} d={path} />
      ))}
    </g>
  );
}
