/** Works out why beside the page: some hundred thousand rings in balance, half a second and more. */
import { config } from 'zod';
import { whysOf } from '#core/experiment/why/why.ts';
import type { WhyQuestion, WhyReply } from './why/asking.ts';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

addEventListener('message', ({ data }: MessageEvent<WhyQuestion>) => {
  self.postMessage(replyTo(data));
});

/** What goes wrong is an answer too: else the page would wait for one for ever. */
function replyTo({ experiment, trials }: WhyQuestion): WhyReply {
  try {
    return { whys: whysOf(experiment, trials) };
  } catch (error) {
    return { fault: error instanceof Error ? error.message : String(error) };
  }
}
