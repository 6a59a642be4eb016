/** The report: what was asked, done, measured and found, to be printed or kept. */
import { render } from 'preact';
import { config } from 'zod';
import './base.css';
import './sheet.css';
import './budget/budget.css';
import './report/report.css';
import './report/print.css';
import { listenToFeed } from './feed/listen.ts';
import { createBench } from './model/bench.ts';
import { ReportPage } from './report/page.tsx';
import { createReport } from './report/state.ts';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

const root = document.querySelector<HTMLElement>('#report');
if (root !== null) {
  const report = createReport(createBench());
  render(<ReportPage report={report} />, root);
  listenToFeed(report);
}
