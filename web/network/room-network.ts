/** What the bench page knows of the room's network: asked for when it may have changed. */
import { effect, signal, type Signal } from '@preact/signals';
import {
  NetworkSchema,
  PassesResponseSchema,
  type DoorRequest,
  type Network,
  type Offer,
  type PassRequest,
} from '#core/network.ts';
import { askFor, isRefusal, type Refusal } from '../feed/requests.ts';
import type { Bench } from '../model/bench.ts';

/** While it is looked at: devices come and go, and other addresses with them. */
const ASK_EVERY_MS = 3000;

export interface RoomNetwork {
  readonly isShown: Signal<boolean>;
  /** null until it was asked for. */
  readonly network: Signal<Network | null>;
  /** The pass that was made last, as long as nobody has taken it up. */
  readonly offer: Signal<Offer | null>;
  readonly name: Signal<string>;
  setDoor(request: DoorRequest): Promise<void>;
  setPass(request: PassRequest): Promise<void>;
}

export function createRoomNetwork(bench: Bench, tell: (refusal: Refusal) => void): RoomNetwork {
  const isShown = signal(false);
  const network = signal<Network | null>(null);
  const offer = signal<Offer | null>(null);
  const take = (answer: Network | Refusal): void => {
    if (isRefusal(answer)) return tell(answer);
    network.value = answer;
    const isFree = ({ id, state }: Network['passes'][number]): boolean =>
      id === offer.peek()?.id && state === 'offered';
    if (!answer.passes.some(isFree)) offer.value = null;
  };
  const load = async (): Promise<void> => {
    const answer = await askFor(NetworkSchema, '/api/network');
    // What is asked for unbidden need not be told when it fails: the link says so already.
    if (!isRefusal(answer)) take(answer);
  };
  effect(() => {
    const changes = bench.status.value?.networkChange ?? 0;
    if (changes > 0 || isShown.value) void load();
  });
  effect(() => {
    if (!isShown.value) return undefined;
    const timer = setInterval(() => void load(), ASK_EVERY_MS);
    return () => clearInterval(timer);
  });
  return {
    isShown,
    network,
    offer,
    name: signal(''),
    setDoor: async (request) => take(await askFor(NetworkSchema, '/api/network', request)),
    setPass: async (request) => {
      const answer = await askFor(PassesResponseSchema, '/api/passes', request);
      if (!isRefusal(answer) && answer.offer !== null) offer.value = answer.offer;
      take(answer);
    },
  };
}

/** Where a page is, as others on the network reach it. */
export function urlAt(address: string, port: number, path = ''): string {
  const host = address.includes(':') ? `[${address}]` : address;
  return `http://${host}:${port}${path}`;
}
