/** Viewers that can't keep up: phones that sleep, pages in the background, broken networks. */
import type { Socket } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import type { FeedLimits } from '../../../server/live/limits.ts';
import { PLATEAU, trialView } from '../http/support.ts';
import { Page, openPage, openSleeper, pause, sampleAt, startLive, turns } from './support.ts';
import type { LiveServer } from './support.ts';

let live: LiveServer;
afterEach(() => live.close());

/**
 * Pushes `rounds` seconds of 1 kHz samples, a second at a time. The noise is a fixed irrational
 * sequence, so that no two numbers are short or the same.
 */
async function pour(rounds: number, from_s: number): Promise<number> {
  for (let second = from_s; second < from_s + rounds; second++) {
    for (let i = 0; i < 1000; i++) {
      const noise = ((second * 1000 + i) * Math.SQRT2) % 1;
      live.feed.sample({ ...sampleAt(second + i / 1000, 1 + noise), windSpeed_mps: 4 + ((noise * 997) % 1) });
    }
    await pause(1);
  }
  return from_s + rounds;
}

const sockets = new Set<Socket>();

async function startWatched(limits: Partial<FeedLimits> = {}): Promise<void> {
  live = await startLive({ silence_ms: 60_000, farewell_ms: 50, ...limits });
  sockets.clear();
  live.server.http.server.on('connection', (socket) => {
    sockets.add(socket);
    socket.once('close', () => sockets.delete(socket));
  });
}

/** Bytes that the server holds for viewers that do not take them. */
function heldBytes(): number {
  return [...sockets].reduce((total, socket) => total + socket.writableLength, 0);
}

describe('a viewer that does not read', () => {
  it('costs bounded memory and holds up nobody', async () => {
    await startWatched();
    const page = await openPage(live.server.port);
    const sleeper = await openSleeper(live.server.port);
    let most = 0;
    let at_s = 0;
    // The operating system takes some megabytes for it before the server has to hold any.
    while (most < 64 * 1024) {
      at_s = await pour(5, at_s);
      most = Math.max(most, heldBytes());
    }
    for (let round = 0; round < 40; round++) {
      at_s = await pour(5, at_s);
      most = Math.max(most, heldBytes());
    }
    expect(most).toBeLessThan(512 * 1024);
    await page.next('samples', (message) => (message.samples.time_s.at(-1) ?? 0) > at_s - 0.1);
    expect(live.feed.viewerCount).toBe(2);
    sleeper.destroy();
  });

  it('is never left without a trial while it stays', async () => {
    await startWatched();
    const page = await openPage(live.server.port);
    page.socket.pause();
    let at_s = 0;
    while (heldBytes() < 64 * 1024) at_s = await pour(5, at_s);
    for (let id = 2; id <= 40; id++) {
      at_s = await pour(1, at_s);
      live.feed.say({ type: 'trial', trial: trialView(id) });
    }
    const held = heldBytes();
    at_s = await pour(50, at_s);
    // Nothing but the trials was added while it was behind (and a ping of two bytes a second).
    expect(heldBytes()).toBeLessThan(held + 100);
    page.socket.resume();
    live.feed.say({ type: 'closed', plateau: PLATEAU });
    await page.next('closed');
    expect(page.of('trial').map((message) => message.trial.id)).toEqual(
      Array.from({ length: 39 }, (_, index) => index + 2),
    );
    // It catches up: what it missed comes once, coarser, and the newest is there.
    live.feed.sample(sampleAt(at_s + 1, 5));
    await page.next('samples', (message) => message.samples.voltage_V.includes(5));
    const times = page.times();
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(new Set(times).size).toBe(times.length);
  });

  it('is closed when more than 1 MB of trials waits for it', async () => {
    await startWatched();
    const page = await openPage(live.server.port);
    const sleeper = await openSleeper(live.server.port);
    await expect.poll(() => live.feed.viewerCount).toBe(2);
    let most = 0;
    let id = 1;
    while (live.feed.viewerCount === 2 && id < 100_000) {
      for (let i = 0; i < 100; i++) live.feed.say({ type: 'trial', trial: trialView(++id) });
      await turns(3);
      most = Math.max(most, heldBytes());
    }
    expect(live.feed.viewerCount).toBe(1);
    expect(most).toBeLessThan(2 * 1024 * 1024);
    await page.next('trial', (message) => message.trial.id === id);
    expect(page.of('trial')).toHaveLength(id - 1);
    sleeper.destroy();
  });
});

describe('a viewer that is gone without a word', () => {
  it('is closed when no sign of life comes, and the living stay', async () => {
    live = await startLive({ beat_ms: 30, silence_ms: 300, farewell_ms: 30 });
    const page = await openPage(live.server.port);
    const silent = new Page(live.server.port);
    await silent.next('snapshot');
    // As if the radio were off: frames no longer reach the client, so no pong comes back.
    silent.socket.pause();
    await expect.poll(() => live.feed.viewerCount, { timeout: 10_000 }).toBe(1);
    silent.socket.resume();
    // 1006: the connection was cut before the goodbye could be read.
    expect([1013, 1006]).toContain((await silent.closed).code);
    live.feed.say({ type: 'declared', start_s: 1, declared_s: 2 });
    await page.next('declared');
  });
});
