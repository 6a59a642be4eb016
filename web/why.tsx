/** Why: what the levels gave beside what a model of the rig expects, and the reasons in words. */
import { render } from 'preact';
import { config } from 'zod';
import './base.css';
import './sheet.css';
import './why/why.css';
import './why/print.css';
import { listenToFeed } from './feed/listen.ts';
import { createBench } from './model/bench.ts';
import { WhyPage } from './why/page.tsx';
import { createWhy } from './why/state.ts';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

const root = document.querySelector<HTMLElement>('#why');
if (root !== null) {
  const page = createWhy(createBench());
  render(<WhyPage page={page} />, root);
  listenToFeed(page);
}
