import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { PLATEAU, STATUS, trialView } from '../http/support.ts';
import { Page, judgementAt, openPage, pause, sampleAt, startLive, turns } from './support.ts';
import type { LiveServer } from './support.ts';

let live: LiveServer;
beforeEach(async () => {
  live = await startLive();
});
afterEach(() => live.close());

describe('a page that connects', () => {
  it('gets the whole picture first', async () => {
    live.feed.sample(sampleAt(1));
    live.feed.sample(sampleAt(1.02, null));
    live.feed.judgement(judgementAt(1));
    live.picture = { ...live.picture, openSince_s: 0.5 };
    const page = await openPage(live.server.port);
    expect(page.messages[0]).toEqual({
      type: 'snapshot',
      ...live.picture,
      samples: {
        time_s: [1, 1.02],
        voltage_V: [1, null],
        current_A: [0.1, 0.1],
        windSpeed_mps: [4, 4],
      },
      judgement: judgementAt(1),
    });
  });

  it('gets every sample once, in the snapshot or after it', async () => {
    let time = 0;
    const source = setInterval(() => live.feed.sample(sampleAt(++time)), 2);
    const pages: Page[] = [];
    for (let i = 0; i < 8; i++) {
      pages.push(new Page(live.server.port));
      await pause(7);
    }
    await Promise.all(pages.map((page) => page.next('samples', (message) => (message.samples.time_s.at(-1) ?? 0) > 30)));
    clearInterval(source);
    for (const page of pages) {
      const seen = [...(page.of('snapshot')[0]?.samples.time_s ?? []), ...page.times()];
      // A minute of stream time is remembered, and one sample here is a second.
      expect(seen).toEqual(Array.from({ length: seen.length }, (_, index) => index + (seen[0] ?? 0)));
      expect(page.of('snapshot')).toHaveLength(1);
    }
  });

  it('hears nothing before its picture, which holds what was said meanwhile', async () => {
    await live.close();
    live = await startLive({ snapshot_ms: 300 });
    await openPage(live.server.port);
    const page = new Page(live.server.port);
    await expect.poll(() => live.feed.viewerCount).toBe(2);
    live.picture = { ...live.picture, trials: [trialView(1), trialView(2)] };
    live.feed.say({ type: 'trial', trial: trialView(2) });
    live.feed.sample(sampleAt(1));
    await page.next('snapshot');
    expect(page.messages[0]?.type).toBe('snapshot');
    expect(page.of('trial')).toEqual([]);
    expect(page.of('snapshot')[0]?.trials.map((trial) => trial.id)).toEqual([1, 2]);
    expect(page.of('snapshot')[0]?.samples.time_s).toEqual([1]);
  });

  it('may ask for the picture again, and gets it with what changed', async () => {
    const page = await openPage(live.server.port);
    live.picture = { ...live.picture, trials: [trialView(1), trialView(2)] };
    page.socket.send('{"type":"snapshot-please"}');
    const second = await page.next('snapshot', (message) => message.trials.length === 2);
    expect(page.messages.at(-1)).toEqual(second);
    expect(page.of('snapshot')).toHaveLength(2);
  });

  it('comes back after a break and misses no trial', async () => {
    const page = await openPage(live.server.port);
    page.socket.terminate();
    await page.closed;
    await expect.poll(() => live.feed.viewerCount).toBe(0);
    live.picture = { ...live.picture, trials: [trialView(1), trialView(2)] };
    live.feed.say({ type: 'trial', trial: trialView(2) });
    const again = await openPage(live.server.port);
    live.feed.say({ type: 'trial', trial: trialView(3) });
    await again.next('trial');
    expect(again.of('snapshot')[0]?.trials.map((trial) => trial.id)).toEqual([1, 2]);
    expect(again.of('trial').map((message) => message.trial.id)).toEqual([3]);
  });
});

describe('what is said', () => {
  it('goes out at once, in order, to everyone', async () => {
    const pages = await Promise.all([1, 2, 3].map(() => openPage(live.server.port)));
    live.feed.say({ type: 'declared', start_s: 3, declared_s: 5 });
    live.feed.say({ type: 'trial', trial: trialView(2) });
    live.feed.say({ type: 'closed', plateau: PLATEAU });
    for (const page of pages) {
      await page.next('closed');
      const said = page.messages.filter((message) => ['declared', 'trial', 'closed'].includes(message.type));
      expect(said).toEqual([
        { type: 'declared', start_s: 3, declared_s: 5 },
        { type: 'trial', trial: trialView(2) },
        { type: 'closed', plateau: PLATEAU },
      ]);
    }
  });
});

describe('what is overtaken', () => {
  it('is gathered: a chunk of samples shares one frame', async () => {
    const page = await openPage(live.server.port);
    await pause(40);
    for (let i = 1; i <= 5; i++) live.feed.sample(sampleAt(i / 100));
    await page.next('samples');
    expect(page.of('samples')[0]?.samples.time_s).toEqual([0.01, 0.02, 0.03, 0.04, 0.05]);
  });

  it('the newest judgement and status win', async () => {
    const page = await openPage(live.server.port);
    for (let i = 1; i <= 50; i++) live.feed.judgement(judgementAt(i));
    live.feed.status({ ...STATUS, health: 'silent' });
    live.feed.status({ ...STATUS, health: 'unreadable' });
    await page.next('status', (message) => message.status.health === 'unreadable');
    await page.next('judgement', (message) => message.judgement.time_s === 50);
    expect(page.of('judgement').length).toBeLessThan(5);
    expect(page.of('status').some((message) => message.status.health === 'silent')).toBe(false);
  });

  it('is sent no more often than every 16 ms', async () => {
    const page = await openPage(live.server.port);
    const from_ms = performance.now();
    for (let i = 1; i <= 300; i++) {
      live.feed.sample(sampleAt(i / 1000));
      await turns(20);
    }
    await page.next('samples', (message) => message.samples.time_s.includes(0.3));
    const elapsed_ms = performance.now() - from_ms;
    expect(page.of('samples').length).toBeLessThanOrEqual(elapsed_ms / 15 + 2);
    expect(page.times()[0]).toBe(0.001);
  });

  it('leaves no viewer without news: the status comes by itself', async () => {
    await live.close();
    live = await startLive({ beat_ms: 20 });
    const page = await openPage(live.server.port);
    live.picture = { ...live.picture, status: { ...STATUS, health: 'silent' } };
    const news = await page.next('status', (message) => message.status.health === 'silent');
    expect(news.status).toEqual({ ...STATUS, health: 'silent' });
  });
});

describe('the last minute', () => {
  it('is all that a snapshot shows, thinned, bounded and true at its peaks', async () => {
    for (let i = 1; i <= 200_000; i++) live.feed.sample(sampleAt(i / 1000, i === 190_001 ? 7 : 1));
    const { samples } = await (await openPage(live.server.port)).next('snapshot');
    expect(samples.time_s[0]).toBeGreaterThan(139.9);
    expect(samples.time_s[0]).toBeLessThan(140.2);
    expect(samples.time_s.length).toBeLessThan(7_000);
    expect(samples.time_s[samples.voltage_V.indexOf(7)]).toBe(190.001);
  });

  it('is forgotten when stream time begins anew, and every page gets the new picture', async () => {
    const page = await openPage(live.server.port);
    live.feed.sample(sampleAt(100));
    live.feed.judgement(judgementAt(100));
    await page.next('judgement');
    live.picture = { ...live.picture, status: { ...STATUS, recordingId: 2 } };
    live.feed.restart();
    live.feed.sample(sampleAt(0.5));
    const fresh = await page.next('snapshot', (message) => message.status.recordingId === 2);
    expect(fresh.judgement).toBeNull();
    live.feed.sample(sampleAt(0.6));
    await page.next('samples', (message) => message.samples.time_s.includes(0.6));
    const after = page.messages.slice(page.messages.indexOf(fresh));
    const seen = after.flatMap((message) => ('samples' in message ? message.samples.time_s : []));
    expect(seen).toEqual([0.5, 0.6]);
  });
});

describe('stopping', () => {
  it('says goodbye, resolves when all are gone, and takes nobody in any more', async () => {
    const pages = await Promise.all([1, 2].map(() => openPage(live.server.port)));
    await live.feed.close();
    for (const page of pages) {
      expect(await page.closed).toEqual({ code: 1001, reason: 'server-stopping: The server is stopping.' });
    }
    expect((await new Page(live.server.port).closed).code).toBe(1006);
    expect(live.feed.viewerCount).toBe(0);
  });
});
