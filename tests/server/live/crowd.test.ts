/** As many viewers as are let in, all at once. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { FEED_LIMITS } from '../../../server/live/limits.ts';
import { trialView } from '../http/support.ts';
import { Page, judgementAt, pause, sampleAt, startLive } from './support.ts';
import type { LiveServer } from './support.ts';

let live: LiveServer;
let pages: Page[];
beforeAll(async () => {
  live = await startLive();
  pages = Array.from({ length: FEED_LIMITS.viewers }, () => new Page(live.server.port));
  await Promise.all(pages.map((page) => page.next('snapshot')));
});
afterAll(() => live.close());

it('500 viewers get every trial and the newest samples', async () => {
  for (let i = 1; i <= 100; i++) {
    live.feed.sample(sampleAt(i / 50));
    if (i % 10 === 0) live.feed.judgement(judgementAt(i / 50));
    if (i % 20 === 0) live.feed.say({ type: 'trial', trial: trialView(i) });
    await pause(10);
  }
  await Promise.all(
    pages.map(async (page) => {
      await page.next('samples', (message) => message.samples.time_s.includes(2));
      await page.next('judgement', (message) => message.judgement.time_s === 2);
    }),
  );
  for (const page of pages) {
    expect(page.of('trial').map((message) => message.trial.id)).toEqual([20, 40, 60, 80, 100]);
    expect(page.times()).toHaveLength(100);
  }
});

it('one more is told that it is full, and may come when another has left', async () => {
  const late = new Page(live.server.port);
  expect(await late.closed).toMatchObject({ code: 1013, reason: expect.stringMatching(/^viewers-full/) as string });
  expect(late.messages).toEqual([]);
  pages[0]?.socket.close();
  await pages[0]?.closed;
  await expect.poll(() => live.feed.viewerCount).toBe(FEED_LIMITS.viewers - 1);
  await new Page(live.server.port).next('snapshot');
});
