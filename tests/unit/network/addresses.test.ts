/** Address ranges: RFC 1918 (private), RFC 3927 (self-assigned), RFC 4193 (unique local IPv6). */
import { isIPv4 } from 'node:net';
import type { NetworkInterfaceInfo } from 'node:os';
import { describe, expect, it } from 'vitest';
import { ownAddresses, type Interfaces } from '../../../server/network/addresses.ts';

const interfaces = (cards: Record<string, readonly string[]>): Interfaces =>
  Object.fromEntries(
    Object.entries(cards).map(([card, addresses]) => [
      card,
      addresses.map((address) => {
        const family = isIPv4(address) ? 'IPv4' : 'IPv6';
        const internal = address === '127.0.0.1' || address === '::1';
        return { address, family, internal } as NetworkInterfaceInfo;
      }),
    ]),
  );
const listed = (cards: Record<string, readonly string[]>) =>
  ownAddresses(interfaces(cards)).map(({ address, kind }) => `${address} ${kind}`);

describe('this computer\u2019s addresses', () => {
  it('are the private ones of its cards first, and never loopback', () => {
    expect(
      listed({
        lo: ['127.0.0.1', '::1'],
        docker0: ['172.17.0.1'],
        eth1: ['169.254.3.4'],
        eth0: ['203.0.113.5'],
        wlan0: ['192.168.4.20', 'fe80::1', '2001:db8::20'],
        tun0: ['10.8.0.2'],
      }),
    ).toEqual([
      '192.168.4.20 private',
      '172.17.0.1 private',
      '10.8.0.2 private',
      '169.254.3.4 self-assigned',
      '203.0.113.5 public',
    ]);
  });

  it.each([
    ['10.0.0.1', 'private'],
    ['11.0.0.1', 'public'],
    ['172.15.9.9', 'public'],
    ['172.16.0.1', 'private'],
    ['172.31.255.254', 'private'],
    ['172.32.0.1', 'public'],
    ['192.167.1.1', 'public'],
    ['192.168.1.1', 'private'],
    ['169.254.0.1', 'self-assigned'],
  ])('%s is %s', (address, kind) => {
    expect(listed({ eth0: [address] })).toEqual([`${address} ${kind}`]);
  });

  it('are IPv6 where there is nothing else, but none of one cable', () => {
    expect(listed({ eth0: ['fe80::1', 'fd00::2', '2001:db8::2'] })).toEqual([
      'fd00::2 private',
      '2001:db8::2 public',
    ]);
    expect(listed({ lo: ['127.0.0.1', '::1'], eth0: ['fe80::1', 'febf::1'] })).toEqual([]);
  });
});
