/** The room page: what a projector shows; it is only looked at. */
import { render } from 'preact';
import { config } from 'zod';
import './base.css';
import './room.css';
import { listenToFeed } from './feed/listen.ts';
import { createBench } from './model/bench.ts';
import { RoomPage } from './room/page.tsx';
import { announceStages } from './view/announce.ts';
import { createAudience } from './view/audience.ts';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

const root = document.querySelector<HTMLElement>('#page');
if (root !== null) {
  const page = createAudience(createBench());
  render(<RoomPage page={page} />, root);
  announceStages(page);
  listenToFeed(page);
}
