/** The room page: what a projector shows; it is only looked at. */
import { computed } from '@preact/signals';
import { render } from 'preact';
import { config } from 'zod';
import './base.css';
import './room.css';
import { listenToFeed } from './feed/listen.ts';
import { createBench } from './model/bench.ts';
import { listenToRoom } from './room/hands.ts';
import { RoomPage } from './room/page.tsx';
import { announceStages } from './view/announce.ts';
import { createAudience } from './view/audience.ts';
import { soundStages } from './voice/sound.ts';
import { createSpeaker } from './voice/speaker.ts';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

const root = document.querySelector<HTMLElement>('#page');
if (root !== null) {
  const page = createAudience(createBench());
  const isOn = page.settings.roomVoiceOn;
  const speaker = createSpeaker(page, isOn);
  render(<RoomPage page={page} note={speaker.note} />, root);
  listenToRoom(page, speaker, isOn);
  soundStages(page.bench.stage, computed(() => isOn.value && page.settings.soundOn.value));
  announceStages(page);
  listenToFeed(page);
}
