import { expect, it } from 'vitest';
import { isBlocked, portAfter } from '../../server/blocked-ports.ts';

/** Why fetch would not even try: Node's own follows the Fetch standard. */
async function reasonAt(port: number): Promise<string> {
  const failure: unknown = await fetch(`http://127.0.0.1:${port}/`).catch((error: unknown) => error);
  const cause = failure instanceof Error ? failure.cause : null;
  return cause instanceof Error ? cause.message : 'none';
}

it('blocks what the fetch of Node blocks, an implementation of the same standard', async () => {
  const blocked = Array.from({ length: 65_536 }, (_, port) => port).filter(isBlocked);
  expect(blocked.length).toBeGreaterThan(80);
  for (const port of blocked) expect([port, await reasonAt(port)]).toEqual([port, 'bad port']);
});

it('blocks nothing beside those: neighbours of blocked ports, and what web servers use', async () => {
  for (const port of [2, 5059, 5062, 6001, 6664, 6670, 10_079, 4680, 8080]) {
    expect([port, isBlocked(port)]).toEqual([port, false]);
    expect(await reasonAt(port)).not.toBe('bad port');
  }
});

it('names the next port that a browser opens', () => {
  expect(portAfter(4680, 4680)).toBe(4681);
  expect(portAfter(6664, 4680)).toBe(6670);
  expect(portAfter(65_535, 4680)).toBe(4680);
});
