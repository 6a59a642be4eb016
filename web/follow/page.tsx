/** The follow page: what the room sees, in one column, for a phone. */
import { useRef } from 'preact/hooks';
import { placeInPlan } from '../model/experiment.ts';
import { isCutOff } from '../model/stage.ts';
import { AnswerPlot } from '../view/answer-plot.tsx';
import { AtWork } from '../view/at-work.tsx';
import type { Audience } from '../view/audience.ts';
import { currentWords } from '../view/current-words.ts';
import { Curtain, MarksInWords } from '../view/curtain.tsx';
import { FilmEdge } from '../view/film-edge.tsx';
import { LanguageChoice } from '../view/language-choice.tsx';
import { LeadLayer } from '../view/lead-layer.tsx';
import { PowerNow } from '../view/power-now.tsx';
import { Said } from '../view/said.tsx';
import { useFit } from '../view/use-fit.ts';
import { useSize } from '../view/use-size.ts';
import { WatchGround } from '../view/watch-ground.tsx';
import { OperatePanel } from '../operate/operate-panel.tsx';
import { PassAsk, PassByCode } from '../operate/pass-ask.tsx';
import type { PhoneState } from '../operate/phone-state.ts';
import { followBox } from './follow-box.ts';

export function FollowPage({ page }: { page: PhoneState }) {
  const stage = page.bench.stage.value;
  const { lines, moving, detail, state } = currentWords(page, page.pass.name.value !== null);
  const fitted = useFit();
  const isHatched = isCutOff(stage) || stage === 'disturbed';
  return (
    <main class={isHatched ? 'follow hatched' : 'follow'} data-stage={stage}>
      <FilmEdge page={page} />
      <PassAsk page={page} />
      <div class="now">
        <AtWork page={page} stage={stage} />
        <div class="fitted" ref={fitted}>
          <h1 class="instruction">
            {lines.map((line) => (
              <span key={line}>{line} </span>
            ))}
          </h1>
          <PowerNow page={page} stage={stage} />
        </div>
      </div>
      <OperatePanel page={page} />
      <div class="field">
        <Drawing page={page} />
        <p class="state">{state}</p>
      </div>
      <div class="below">
        <Said page={page} />
        <p class="soft">
          {moving} {detail}
        </p>
        <p class="soft">
          {placeSaid(page)}{' '}
          {page.pass.name.value === null && page.words.value.page.watchingOnly}
        </p>
        <div class="device">
          <LanguageChoice settings={page.settings} />
          <VoiceChoice page={page} />
          <PassByCode page={page} />
        </div>
      </div>
      <MarksInWords page={page} />
    </main>
  );
}

/** A phone in a pocket can say what the room is told. */
function VoiceChoice({ page: { speaker, settings, words } }: { page: PhoneState }) {
  const { on, off } = words.value.voice;
  const isOn = settings.voiceOn.value;
  return (
    <p class="languages">
      <button type="button" aria-pressed={isOn} onClick={() => speaker.toggle()}>
        {speaker.note.value ?? (isOn ? on : off)}
      </button>
    </p>
  );
}

function Drawing({ page }: { page: Audience }) {
  const host = useRef<HTMLDivElement>(null);
  const size = useSize(host);
  const box = followBox(size);
  return (
    <div class="drawing" ref={host}>
      {size.width > 0 && (
        <svg width={size.width} height={size.height} aria-hidden="true">
          <WatchGround page={page} box={box} />
          <LeadLayer page={page} box={box} />
          <AnswerPlot page={page} box={box} />
          <Curtain page={page} box={box} />
        </svg>
      )}
    </div>
  );
}

/** "Run 8 of 15.", or with what is done where no run is at work. */
function placeSaid({ bench, words }: Audience): string {
  const experiment = bench.experiment.value;
  if (experiment.plan === null) return '';
  const { at, done, all } = placeInPlan(experiment);
  const { plan, page } = words.value;
  return at > 0 ? `${plan.runOf(at, all)}.` : page.runsDone(done, all);
}
