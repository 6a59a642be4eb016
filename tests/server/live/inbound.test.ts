/** What a viewer may send. Opcodes and close codes: RFC 6455, 5.2, 7.4.1 and its IANA registry. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { trialView } from '../http/support.ts';
import { frame, openPage, openSleeper, startLive } from './support.ts';
import type { LiveServer, Page } from './support.ts';

const TEXT = 1;
const CONTINUATION = 0;
const PING = 9;

/** A message that never ends. */
function fragments(text: string): Buffer {
  const next = frame(CONTINUATION, Buffer.from(text), false);
  return Buffer.concat([frame(TEXT, Buffer.from(text), false), ...Array.from({ length: 100 }, () => next)]);
}

let live: LiveServer;
let bystander: Page;
beforeEach(async () => {
  live = await startLive({ farewell_ms: 100 });
  bystander = await openPage(live.server.port);
});
afterEach(async () => {
  // Whatever the other one did, this page still hears everything.
  live.feed.say({ type: 'trial', trial: trialView(7) });
  expect((await bystander.next('trial')).trial.id).toBe(7);
  await live.close();
});

describe('a viewer is closed', () => {
  it.each([
    'snapshot-please',
    '{"type":"snapshot-please"',
    '{"type":"strike","trialId":1}',
    '{"type":"snapshot-please","and":"more"}',
    '{"__proto__":{"type":"snapshot-please"}}',
    '[{"type":"snapshot-please"}]',
    'null',
    '',
  ])('for a message that is not understood: %s', async (text) => {
    const page = await openPage(live.server.port);
    page.socket.send(text);
    const { code, reason } = await page.closed;
    expect([code, reason.split(':')[0]]).toEqual([1008, 'message-refused']);
    expect(live.server.app.asked).toEqual([]);
  });

  it('for a binary message', async () => {
    const page = await openPage(live.server.port);
    page.socket.send(Buffer.from('{"type":"snapshot-please"}'));
    expect((await page.closed).code).toBe(1008);
  });

  it('for a message of more than 4 KiB', async () => {
    const page = await openPage(live.server.port);
    page.socket.send(`{"type":"snapshot-please"${' '.repeat(5000)}}`);
    expect((await page.closed).code).toBe(1009);
  });

  it('for text that is not UTF-8', async () => {
    const page = await openPage(live.server.port);
    page.socket.send(Buffer.from([0xc3, 0x28]), { binary: false });
    expect((await page.closed).code).toBe(1007);
  });

  it('for asking too often', async () => {
    const page = await openPage(live.server.port);
    for (let i = 0; i < 30; i++) page.socket.send('{"type":"snapshot-please"}');
    const { code, reason } = await page.closed;
    expect([code, reason.split(':')[0]]).toEqual([1008, 'too-many-messages']);
    expect(page.of('snapshot').length).toBeLessThan(5);
  });

  it('for a flood of pings', async () => {
    const page = await openPage(live.server.port);
    for (let i = 0; i < 30; i++) page.socket.ping();
    expect((await page.closed).reason).toMatch(/^too-many-messages/);
  });

  it.each([
    ['fragments', fragments('x')],
    ['empty fragments', fragments('')],
    ['an unmasked frame', Buffer.from('810178', 'hex')],
    ['a frame that says it is enormous', Buffer.from('81ff7fffffffffffffff', 'hex')],
    ['a reserved opcode', frame(5, Buffer.from('x'))],
    ['a fragmented ping', frame(PING, Buffer.from('x'), false)],
  ])('for %s', async (_name, bytes) => {
    const socket = await openSleeper(live.server.port);
    const closed = new Promise((resolve) => socket.once('close', resolve));
    socket.resume();
    socket.write(bytes);
    await closed;
    await expect.poll(() => live.feed.viewerCount).toBe(1);
  });
});

describe('a viewer that lets a long message trickle in', () => {
  it('is closed before much of it is held', async () => {
    const socket = await openSleeper(live.server.port);
    socket.resume();
    socket.setNoDelay();
    socket.on('error', () => undefined);
    for (const byte of frame(TEXT, Buffer.from(' '.repeat(3000))).subarray(0, 400)) {
      if (socket.closed) break;
      socket.write(Buffer.from([byte]));
      await new Promise((resolve) => setTimeout(resolve, 2));
    }
    await expect.poll(() => live.feed.viewerCount).toBe(1);
  });
});

describe('a viewer stays', () => {
  it('when it asks now and then, in fragments, or in one byte at a time', async () => {
    const socket = await openSleeper(live.server.port);
    socket.resume();
    const whole = frame(TEXT, Buffer.from('{"type":"snapshot-please"}'));
    for (const byte of whole) socket.write(Buffer.from([byte]));
    socket.write(frame(TEXT, Buffer.from('{"type":'), false));
    socket.write(frame(CONTINUATION, Buffer.from('"snapshot-please"}')));
    live.feed.say({ type: 'declared', start_s: 1, declared_s: 2 });
    await bystander.next('declared');
    await new Promise((resolve) => setTimeout(resolve, 150));
    expect(live.feed.viewerCount).toBe(2);
    socket.destroy();
  });
});
