/** The bench page: connects the feed, and draws what it says. */
import { render } from 'preact';
import { config } from 'zod';
import 'uplot/dist/uPlot.min.css';
import './base.css';
import './bench.css';
import './network/network.css';
import './plan/plan.css';
import './by-hand/by-hand.css';
import './budget/budget.css';
import './fitting/fit.css';
import { BudgetSheet } from './budget/budget-sheet.tsx';
import { listenToFeed } from './feed/listen.ts';
import { operatorRequests } from './feed/operating.ts';
import { loadRevisions, loadSessions, post, type Refusal } from './feed/requests.ts';
import { listenToKeys } from './keys.ts';
import { createBench } from './model/bench.ts';
import { soundStages } from './voice/sound.ts';
import { announceStages } from './view/announce.ts';
import { KeyedSheet } from './by-hand/keyed-sheet.tsx';
import { TableSheet } from './by-hand/table-sheet.tsx';
import { BoardPanel } from './view/board-panel.tsx';
import { FilmEdge } from './view/film-edge.tsx';
import { Header } from './view/header.tsx';
import { Notices } from './view/notices.tsx';
import { createSessions } from './view/sessions.ts';
import { sessionFiles } from './view/session-files.ts';
import { SessionsPanel } from './view/sessions-panel.tsx';
import { NetworkPanel } from './network/network-panel.tsx';
import { createRoomNetwork } from './network/room-network.ts';
import { KeysPanel } from './view/keys-panel.tsx';
import { Naming } from './view/naming.tsx';
import { NowBand } from './view/now-band.tsx';
import { createOperator } from './view/operator.ts';
import { createPageState, type PageState } from './view/page-state.ts';
import { PlanRail } from './view/plan-rail.tsx';
import { PlanSheet } from './plan/plan-form.tsx';
import { PowerField } from './view/power-field.tsx';
import { QuestionLine } from './view/question-line.tsx';
import { RigFinding } from './view/rig-finding.tsx';
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
      <main>
        <PlanRail page={page} />
        <div class="stays">
          <Notices page={page} />
          <NowBand page={page} />
          <QuestionLine page={page} />
        </div>
        <RigFinding page={page} />
        <BoardPanel page={page} />
        <KeysPanel page={page} />
        <SessionsPanel page={page} />
        <NetworkPanel page={page} />
        <PlanSheet page={page} />
        <KeyedSheet page={page} />
        <TableSheet page={page} />
        <BudgetSheet page={page} />
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

function start(root: HTMLElement): void {
  const bench = createBench();
  const tell = (refusal: Refusal | null): void => {
    if (refusal !== null) bench.trouble.value = refusal;
  };
  const sessions = createSessions();
  const operator = createOperator(operatorRequests({ bench, identity: () => ({}), tell }));
  const page = createPageState({
    bench,
    sessions,
    operator,
    roomNetwork: createRoomNetwork(bench, tell),
    useBoard: (id) => void post('/api/link', { use: 'board', id }).then(tell),
    useMeters: () => void post('/api/link', { use: 'meters' }).then(tell),
    wantOfBoard: (request) => post('/api/board', request),
    loadSessions,
    loadRevisions,
    goOnIn: (request) => void post('/api/sessions', request).then(tell),
    ...sessionFiles({ sessions, planning: operator.planning }, tell),
    play: (wanted) => {
      const request = wanted === null ? { use: 'what-was' as const } : { use: 'session' as const, ...wanted };
      void post('/api/link', request).then(tell);
    },
  });
  render(<BenchPage page={page} />, root);
  listenToKeys(page);
  soundStages(bench.stage, page.settings.soundOn);
  announceStages(page);
  listenToFeed(page);
}

const root = document.querySelector<HTMLElement>('#page');
if (root !== null) start(root);
