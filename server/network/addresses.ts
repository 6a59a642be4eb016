/** This computer's addresses that others could reach, the likeliest first. */
import { isIPv4 } from 'node:net';
import { networkInterfaces, type NetworkInterfaceInfo } from 'node:os';
import type { Door } from '#core/network.ts';

export type OwnAddress = Pick<Door, 'address' | 'card' | 'kind'>;
export type Interfaces = Readonly<Record<string, readonly NetworkInterfaceInfo[] | undefined>>;

/**
 * IPv4 as a rule, because every phone's camera and keyboard can do it. IPv6 only where there is no
 * IPv4, and none that is good on one cable alone (link-local: a phone would need the card's name).
 */
export function ownAddresses(interfaces: Interfaces = networkInterfaces()): OwnAddress[] {
  const all = Object.entries(interfaces).flatMap(([card, addresses]) =>
    (addresses ?? []).filter(({ internal }) => !internal).map(({ address }) => ({ card, address })),
  );
  const v4 = all.filter(({ address }) => isIPv4(address));
  const usable = v4.length > 0 ? v4 : all.filter(({ address }) => !/^fe[89ab]/i.test(address));
  return usable
    .map(({ card, address }) => ({ card, address, kind: kindOf(address) }))
    .sort((a, b) => rank(a) - rank(b));
}

/** RFC 1918, RFC 3927 and RFC 4193; anything else may be reachable from outside the building. */
function kindOf(address: string): Door['kind'] {
  if (/^169\.254\./.test(address)) return 'self-assigned';
  const isPrivate =
    /^(10|192\.168|172\.(1[6-9]|2\d|3[01]))\./.test(address) || /^f[cd]/i.test(address);
  return isPrivate ? 'private' : 'public';
}

/** Cards of programs (virtual machines, containers, tunnels): seldom the room's network. */
const VIRTUAL = /^(docker|br-|veth|virbr|vboxnet|vmnet|vEthernet|tun|tap|utun|wg|bridge|zt|ppp)/i;

function rank({ card, kind }: OwnAddress): number {
  const byKind = { private: 0, 'self-assigned': 2, public: 3 }[kind];
  return byKind + (VIRTUAL.test(card) ? 1.5 : 0);
}
