/** The follow page: the same for phones on the same network; it is only looked at. */
import { render } from 'preact';
import { config } from 'zod';
import './base.css';
import './follow.css';
import { listenToFeed } from './feed/listen.ts';
import { createBench } from './model/bench.ts';
import { FollowPage } from './follow/page.tsx';
import { announceStages } from './view/announce.ts';
import { createAudience } from './view/audience.ts';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

const root = document.querySelector<HTMLElement>('#page');
if (root !== null) {
  const page = createAudience(createBench());
  render(<FollowPage page={page} />, root);
  announceStages(page);
  listenToFeed(page);
}
