/** The room's network as the routes ask for it: doors and passes, and who is told of a change. */
import type { Server } from 'node:http';
import type { Held, Network } from '#core/network.ts';
import { ownAddresses } from './network/addresses.ts';
import { Doors, type DoorParts } from './network/doors.ts';
import { Passes } from './network/passes.ts';
import { HttpError } from './routes/errors.ts';
import type { NetworkPort } from './routes/network-port.ts';

export interface RoomNetworkParts {
  readonly newServer: () => Server;
  readonly port: () => number;
  readonly addresses?: DoorParts['addresses'];
  /** Rights or the state of the network have changed. */
  readonly changed: () => void;
}

export interface RoomNetwork extends NetworkPort {
  /** Opens every address that the computer has now, or the one that is named. */
  openAtStart(address: string | null): Promise<void>;
  close(): Promise<void>;
}

export function createRoomNetwork(parts: RoomNetworkParts): RoomNetwork {
  const addresses = parts.addresses ?? (() => ownAddresses());
  const doors = new Doors({ ...parts, addresses });
  const passes = new Passes(() => performance.now() / 1000);
  const view = (): Network => ({ port: parts.port(), doors: doors.list(), passes: passes.list() });
  const open = async (address: string): Promise<void> => {
    const trouble = await doors.open(address);
    if (trouble !== null) throw new HttpError('door-refused', trouble.message, trouble.about);
  };
  const told = <T>(outcome: T): T => {
    parts.changed();
    return outcome;
  };
  return {
    view,
    door: async ({ want, address }) => {
      if (want === 'open') await open(address);
      else await doors.close(address);
      // Nobody can reach it any more; when it is opened again, nobody is an operator.
      if (!doors.isAnyOpen) passes.forgetAll();
      return told(view());
    },
    pass: (request) => {
      if (request.want === 'take-back') {
        passes.takeBack(request.id);
        return told({ ...view(), offer: null });
      }
      const offer = passes.offer(request.name);
      if (offer === null) {
        throw new HttpError('passes-full', 'There are as many passes as there may be. Take one back first.');
      }
      return told({ ...view(), offer });
    },
    claim: (claim, { address, credential }) => {
      if (claim.want === 'give-back') {
        if (credential === null) return null;
        passes.giveBack(credential, address);
        return told(null);
      }
      return told(takeUp(passes, claim, address));
    },
    holderOf: (credential, address) => passes.holderOf(credential, address),
    openAtStart: async (named) => {
      const all = addresses().map(({ address }) => address);
      for (const address of named === null ? all : [named]) await open(address);
      parts.changed();
    },
    close: () => doors.closeAll(),
  };
}

function takeUp(
  passes: Passes,
  given: { readonly secret: string } | { readonly code: string },
  address: string,
): Held {
  const held =
    'secret' in given
      ? passes.takeBySecret(given.secret, address)
      : passes.takeByCode(given.code, address);
  if (held !== null) return held;
  throw new HttpError('pass-unknown', 'This pass is not good: it was used, it has run out, or the code is wrong. Have a new one made at the laptop.');
}
