/**
 * An address of this computer that is not the bench's own door: one of its network cards, else a
 * second one of loopback (RFC 1122, 3.2.1.3: all of 127/8 is), so that tests need no network.
 */
import { ownAddresses, type OwnAddress } from '../../server/network/addresses.ts';

const [card] = ownAddresses();
export const OWN_ADDRESS: OwnAddress = card ?? {
  address: '127.0.0.2',
  card: 'loopback',
  kind: 'private',
};
