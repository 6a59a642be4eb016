/** The follow page: the same for phones on the same network; with a pass a phone operates, too. */
import { render } from 'preact';
import { config } from 'zod';
import './base.css';
import './follow.css';
import './operate/operate.css';
import { listenToFeed } from './feed/listen.ts';
import { createBench } from './model/bench.ts';
import { FollowPage } from './follow/page.tsx';
import { announceStages } from './view/announce.ts';
import { createPhoneState } from './operate/phone-state.ts';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

const root = document.querySelector<HTMLElement>('#page');
if (root !== null) {
  const page = createPhoneState(createBench());
  render(<FollowPage page={page} />, root);
  announceStages(page);
  listenToFeed(page);
}
