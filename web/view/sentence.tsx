/** What can honestly be said now, and the line about keys. */
import { isPlayed } from '../model/bench.ts';
import { sentenceNow } from '../model/sentence-now.ts';
import { NetworkFold } from '../network/network-fold.tsx';
import { actionFor } from './actions.ts';
import { LanguageField } from './language-choice.tsx';
import type { PageState } from './page-state.ts';
import { Tally, Votes } from './predictions.tsx';
import { Key } from './run-line.tsx';

export function SaidNow({ page }: { page: PageState }) {
  const { plan, runs, isCovered } = page.bench.experiment.value;
  const isBegun = runs.some(({ trialIds }) => trialIds.length > 0);
  return (
    <section class="said" aria-label={page.words.value.page.sectionSaid}>
      <Said page={page} />
      {isCovered || (plan !== null && !isBegun) ? <Votes page={page} /> : <Tally page={page} />}
      <KeyLine page={page} />
    </section>
  );
}

function Said({ page }: { page: PageState }) {
  const { experiment, trials } = page.bench;
  const { said, small } = sentenceNow({
    experiment: experiment.value,
    answer: page.answer.value,
    trials: trials.value,
    prefix: page.prefixes.value.power_W,
    stage: page.bench.stage.value,
    words: page.words.value,
  });
  return (
    <>
      <p class="sentence">{said}</p>
      {small !== '' && (
        <p class="small soft">
          {small} {!experiment.value.isCovered && <DoAdvised page={page} />}{' '}
          {!experiment.value.isCovered && <a href="/why">{page.words.value.top.header.why}</a>}
        </p>
      )}
    </>
  );
}

/** Adds the advised runs to the plan, each to be set anew. */
function DoAdvised({ page: { answer, bench, operator, words } }: { page: PageState }) {
  const runIds = answer.value?.advisedRunIds ?? [];
  if (runIds.length === 0 || isPlayed(bench)) return null;
  const add = async (): Promise<void> => {
    for (const runId of runIds) if (!(await operator.say({ say: 'again', runId }))) return;
  };
  return (
    <button type="button" onClick={() => void add()}>
      {words.value.answer.doThese}
    </button>
  );
}

function CoverButton({ page }: { page: PageState }) {
  const cover = actionFor(page, 'cover');
  if (cover === null) return null;
  const say = page.words.value.bench.cover;
  return (
    <button type="button" onClick={cover}>
      {page.bench.experiment.value.isCovered ? say.reveal : say.cover}
      {page.settings.lettersOn.value && <Key>C</Key>}
    </button>
  );
}

function KeysFold({ page: { operator, words } }: { page: PageState }) {
  const { keysShown, teaching } = operator;
  return (
    <button
      type="button"
      aria-expanded={keysShown.value}
      aria-controls="keys"
      onClick={() => {
        keysShown.value = !keysShown.value;
        teaching.value = null;
      }}
    >
      {words.value.bench.keys}
    </button>
  );
}

/** Unfolded, it shows what is kept by then. */
function SessionsFold({ page }: { page: PageState }) {
  const { isShown, kept } = page.sessions;
  return (
    <button
      type="button"
      aria-expanded={isShown.value}
      aria-controls="sessions"
      onClick={() => {
        isShown.value = !isShown.value;
        if (isShown.value) void page.loadSessions().then((found) => (kept.value = found));
      }}
    >
      {page.words.value.bench.sessions.sessions}
    </button>
  );
}

function KeyLine({ page }: { page: PageState }) {
  const say = page.words.value.top.header;
  return (
    <p class="key-line soft">
      <CoverButton page={page} />
      <KeysFold page={page} />
      <SessionsFold page={page} />
      <NetworkFold page={page} />
      <a href="/report">{say.report}</a>
      <a href="/wiring">{say.wiring}</a>
      <VoiceButton page={page} />
      <LanguageField settings={page.settings} />
    </p>
  );
}

/** Off until it is switched on: browsers speak only once somebody has touched the page. */
function VoiceButton({ page: { speaker, settings, words } }: { page: PageState }) {
  const { on, off } = words.value.voice;
  return (
    <button type="button" aria-pressed={settings.voiceOn.value} onClick={() => speaker.toggle()}>
      {speaker.note.value ?? (settings.voiceOn.value ? on : off)}
      {settings.lettersOn.value && <Key>V</Key>}
    </button>
  );
}
