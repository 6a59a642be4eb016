/** The room page, top down: what is set, what to do, the power, what still moves, what can be said. */
import type { ReadonlySignal } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { isCutOff } from '../model/stage.ts';
import { AnswerPlot } from '../view/answer-plot.tsx';
import { AtWork, Progress } from '../view/at-work.tsx';
import type { Audience } from '../view/audience.ts';
import { currentWords } from '../view/current-words.ts';
import { Curtain, MarksInWords } from '../view/curtain.tsx';
import { FilmEdge } from '../view/film-edge.tsx';
import { LeadLayer } from '../view/lead-layer.tsx';
import { PowerNow } from '../view/power-now.tsx';
import { Said } from '../view/said.tsx';
import { useFit } from '../view/use-fit.ts';
import { useSize } from '../view/use-size.ts';
import { WatchGround } from '../view/watch-ground.tsx';
import { roomBox } from './room-box.ts';

interface RoomProps {
  readonly page: Audience;
  /** A word about the voice, for a while. */
  readonly note: ReadonlySignal<string | null>;
}

export function RoomPage({ page, note }: RoomProps) {
  const host = useRef<HTMLElement>(null);
  const size = useSize(host);
  const stage = page.bench.stage.value;
  const { lines, state } = currentWords(page);
  const isHatched = isCutOff(stage) || stage === 'disturbed';
  return (
    <main class={isHatched ? 'room hatched' : 'room'} data-stage={stage} ref={host}>
      <FilmEdge page={page} />
      {size.width > 0 && <Drawing page={page} size={size} />}
      <div class="sheet">
        <AtWork page={page} stage={stage} />
        <Instruction lines={lines} />
        <FittedPower page={page} />
        <p class="state">{state}</p>
        <Said page={page} note={note.value} />
        <Progress page={page} stage={stage} />
      </div>
      <MarksInWords page={page} />
    </main>
  );
}

function Drawing({ page, size }: { page: Audience; size: ReturnType<typeof useSize> }) {
  const box = roomBox(size);
  return (
    <svg class="drawing" width={size.width} height={size.height} aria-hidden="true">
      <WatchGround page={page} box={box} />
      <LeadLayer page={page} box={box} />
      <AnswerPlot page={page} box={box} />
      <Curtain page={page} box={box} />
    </svg>
  );
}

/** Two lines in the largest type that the width left of the plot allows. */
function Instruction({ lines }: { lines: readonly string[] }) {
  const host = useFit<HTMLHeadingElement>();
  return (
    <h1 class="instruction" ref={host}>
      {lines.map((line) => (
        <span key={line}>{line} </span>
      ))}
    </h1>
  );
}

function FittedPower({ page }: { page: Audience }) {
  const stage = page.bench.stage.value;
  const host = useFit();
  return (
    <div class="figures" ref={host}>
      <PowerNow page={page} stage={stage} />
    </div>
  );
}
