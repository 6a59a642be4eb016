/**
 * The network's doors: one listener for each address that was opened, so that what is open is what
 * the bench page shows and nothing else. The bench itself has a listener of its own; however many
 * connections come in at a door, the bench's are not among them.
 */
import type { Server } from 'node:http';
import type { Socket } from 'node:net';
import type { Door } from '#core/network.ts';
import type { Obstacle } from '#core/obstacle.ts';
import type { OwnAddress } from './addresses.ts';

export interface DoorParts {
  /** A server that answers as the bench's does, but takes what comes in at it as from afar. */
  readonly newServer: () => Server;
  /** The bench's port: doors have the same. */
  readonly port: () => number;
  readonly addresses: () => OwnAddress[];
}

interface OpenDoor {
  readonly at: OwnAddress;
  readonly server: Server;
  readonly sockets: Set<Socket>;
}

export class Doors {
  readonly #parts: DoorParts;
  readonly #open = new Map<string, OpenDoor>();

  constructor(parts: DoorParts) {
    this.#parts = parts;
  }

  get isAnyOpen(): boolean {
    return this.#open.size > 0;
  }

  list(): Door[] {
    const now = this.#parts.addresses();
    const isThere = (address: string): boolean => now.some((one) => one.address === address);
    const lost = [...this.#open.values()].map(({ at }) => at).filter((at) => !isThere(at.address));
    return [...now, ...lost].map((at) => {
      const open = this.#open.get(at.address);
      const remote = new Set([...(open?.sockets ?? [])].map((socket) => socket.remoteAddress));
      const isOpen = open !== undefined;
      return { ...at, isThere: isThere(at.address), isOpen, devices: remote.size };
    });
  }

  /**
   * Opens one of this computer's addresses.
   * @returns why it can't be opened; null when it is open
   */
  async open(address: string): Promise<Obstacle | null> {
    if (this.#open.has(address)) return null;
    const at = this.#parts.addresses().find((one) => one.address === address);
    if (at === undefined) {
      const message = `This computer has no address ${address} now.`;
      return { message, about: ['no-address', address] };
    }
    const server = this.#parts.newServer();
    const sockets = new Set<Socket>();
    server.on('connection', (socket: Socket) => {
      sockets.add(socket);
      socket.once('close', () => sockets.delete(socket));
    });
    const failed = await listen(server, address, this.#parts.port());
    if (failed !== null) {
      const message = `${address} could not be opened (${failed.message}).`;
      return { message, about: ['not-opened', address, failed.message] };
    }
    // Something that goes wrong later (a card taken out) must not end the program.
    server.on('error', () => {});
    this.#open.set(address, { at, server, sockets });
    return null;
  }

  /** Closes it and drops every connection that came in there. */
  async close(address: string): Promise<void> {
    const door = this.#open.get(address);
    if (door === undefined) return;
    this.#open.delete(address);
    const closed = new Promise<void>((resolve) => door.server.close(() => resolve()));
    for (const socket of door.sockets) socket.destroy();
    await closed;
  }

  async closeAll(): Promise<void> {
    await Promise.all([...this.#open.keys()].map((address) => this.close(address)));
  }
}

function listen(server: Server, host: string, port: number): Promise<Error | null> {
  return new Promise((resolve) => {
    server.once('error', resolve);
    server.listen({ host, port, exclusive: true }, () => {
      server.off('error', resolve);
      resolve(null);
    });
  });
}
