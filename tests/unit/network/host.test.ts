import { describe, expect, it } from 'vitest';
import { readHost } from '../../../server/listen.ts';
import { createRoomNetwork } from '../../../server/room-network.ts';

const BENCH = '127.0.0.1';

describe('what the command line asks for', () => {
  it.each([
    [undefined, false, BENCH, null],
    [undefined, true, BENCH, { address: null }],
    ['localhost', false, BENCH, null],
    ['127.0.0.1', true, BENCH, null],
    ['::1', false, '::1', null],
    ['0.0.0.0', false, BENCH, { address: null }],
    ['::', false, BENCH, { address: null }],
    ['192.168.4.20', false, BENCH, { address: '192.168.4.20' }],
  ])('--host %s, --lan %s: the bench keeps a door of its own', (host, lan, bench, open) => {
    expect(readHost(host, lan)).toEqual({ host: bench, open });
  });
});

it('an address that the computer does not have is not opened', async () => {
  const network = createRoomNetwork({
    newServer: () => {
      throw new Error('nothing may listen');
    },
    port: () => 4680,
    addresses: () => [],
    changed: () => {},
  });
  await expect(network.openAtStart('203.0.113.9')).rejects.toMatchObject({ code: 'door-refused' });
  await network.openAtStart(null);
  expect(network.view().doors).toEqual([]);
});
