/** The bench page: connects the feed, and draws what it says. */
import { effect } from '@preact/signals';
import { render } from 'preact';
import { config } from 'zod';
import 'uplot/dist/uPlot.min.css';
import './bench.css';
import { connectFeed, STALE_AFTER_MS } from './feed/connection.ts';
import { post, type Refusal } from './feed/requests.ts';
import { listenToKeys } from './keys.ts';
import { createBench, takeMessage, type Bench } from './model/bench.ts';
import { soundStages } from './sound.ts';
import { BoardPanel } from './view/board-panel.tsx';
import { Header } from './view/header.tsx';
import { FilmEdge, Notices } from './view/notices.tsx';
import { Naming } from './view/naming.tsx';
import { inOneLine } from './model/words.ts';
import { currentWords, NowBand } from './view/now-band.tsx';
import { createPageState, type PageState } from './view/page-state.ts';
import { PowerField } from './view/power-field.tsx';
import { SaidNow } from './view/sentence.tsx';
import { Strips } from './view/strips.tsx';
import { TrialList } from './view/trial-list.tsx';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

function BenchPage({ page }: { page: PageState }) {
  return (
    <>
      <FilmEdge page={page} />
      <Header page={page} />
      <BoardPanel page={page} />
      <main>
        <Notices page={page} />
        <NowBand page={page} />
        <Naming page={page} />
        <div class="ground-plan">
          <Strips page={page} />
          <PowerField page={page} />
          <TrialList page={page} />
          <SaidNow page={page} />
        </div>
      </main>
    </>
  );
}

function listenToFeed(bench: Bench): void {
  connectFeed({
    message: (message) => {
      bench.news.value = 'live';
      takeMessage(bench, message);
    },
    unreadable: (problem) => {
      bench.trouble.value = `Page and program do not fit together (${problem}). Reload the page.`;
    },
    quiet: (quiet_ms) => {
      bench.quiet_s.value = Math.floor(quiet_ms / 1000);
      const isStale = quiet_ms > STALE_AFTER_MS && bench.news.value === 'live';
      if (isStale) bench.news.value = 'no-news';
    },
  });
}

/** A stage must last this long to be announced: what flickers is not news. */
const ANNOUNCE_AFTER_MS = 600;

/** One polite status line for screen readers, and the tab's title, on changes of stage only. */
function announceStages(page: PageState): void {
  const line = document.createElement('p');
  line.className = 'sr';
  line.setAttribute('role', 'status');
  document.body.append(line);
  let timer: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    page.bench.stage.value;
    clearTimeout(timer);
    timer = setTimeout(() => {
      const { lines, moving } = currentWords(page);
      const instruction = inOneLine(lines);
      line.textContent = `${instruction} ${moving}`;
      document.title = `${instruction} · Stillmark`;
    }, ANNOUNCE_AFTER_MS);
  });
}

function start(root: HTMLElement): void {
  const bench = createBench();
  const tell = (refusal: Refusal | null): void => {
    if (refusal !== null) bench.trouble.value = refusal.message;
  };
  const page = createPageState({
    bench,
    act: (request) => void post('/api/actions', request).then(tell),
    useBoard: (id) => void post('/api/link', { use: 'board', id }).then(tell),
    wantOfBoard: (request) => post('/api/board', request),
  });
  render(<BenchPage page={page} />, root);
  listenToKeys(page);
  soundStages(bench.stage, page.settings.soundOn);
  announceStages(page);
  listenToFeed(bench);
}

const root = document.querySelector<HTMLElement>('#page');
if (root !== null) start(root);
