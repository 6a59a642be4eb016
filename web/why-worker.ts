/** Works out why beside the page: some hundred thousand rings in balance, half a second and more. */
import { config } from 'zod';
import { whysOf } from '#core/experiment/why/why.ts';
import type { WhyQuestion } from './why/asking.ts';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

addEventListener('message', ({ data }: MessageEvent<WhyQuestion>) => {
  self.postMessage(whysOf(data.experiment, data.trials));
});
