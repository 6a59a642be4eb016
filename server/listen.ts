import type { Server } from 'node:http';
import type { FastifyInstance } from 'fastify';
import { isBlocked, portAfter } from './blocked-ports.ts';
import { readNumber } from './commands/arguments.ts';
import { InputError } from './commands/exit-errors.ts';

/** Of the bench's own door, unless another one is named. */
export const DEFAULT_PORT = 4680;

const LOOPBACK = '127.0.0.1';
const EVERYWHERE = ['0.0.0.0', '::'];

/**
 * Starts listening.
 * @param at `host`: an address of loopback
 * @returns the address for a person on this computer
 * @throws InputError port-in-use, port-refused or host-unknown, saying what to do
 */
export async function listenAt(
  http: FastifyInstance,
  at: { host: string; port: number },
): Promise<string> {
  const { host, port } = at;
  try {
    await http.listen({ host, port });
  } catch (error) {
    throw wordsFor(error, host, port);
  }
  return `http://${host === '::1' ? '[::1]' : '127.0.0.1'}:${portOf(http.server)}/`;
}

/** The port that a server listens on; 0 before it does. */
export function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address !== null ? address.port : 0;
}

/**
 * The port that `--port` names; 0 is any that is free.
 * @throws InputError port-blocked where no browser would open the page
 */
export function readPort(text: string | undefined): number {
  if (text === undefined) return DEFAULT_PORT;
  const port = readNumber('port', text, { low: 0, high: 65_535, whole: true });
  if (!isBlocked(port)) return port;
  throw new InputError('port-blocked', `Browsers open no page at port ${port}: it is another service's. Choose another: --port ${portAfter(port, DEFAULT_PORT)}`);
}

/** What `--host` and `--lan` ask for: the bench's own door, and what is open from the start. */
export function readHost(
  host: string | undefined,
  lan: boolean,
): { host: string; open: { address: string | null } | null } {
  if (host === undefined) return { host: LOOPBACK, open: lan ? { address: null } : null };
  if (host === 'localhost' || host === LOOPBACK) return { host: LOOPBACK, open: null };
  if (host === '::1') return { host, open: null };
  return { host: LOOPBACK, open: { address: EVERYWHERE.includes(host) ? null : host } };
}

/** An address that was asked for on the command line and can't be opened ends the program. */
export function refuseHost(error: unknown): never {
  const why = error instanceof Error ? error.message : String(error);
  throw new InputError('host-unknown', `${why} Leave --host out, or give an address of this computer.`);
}

function wordsFor(error: unknown, host: string, port: number): unknown {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  if (code === 'EADDRINUSE') {
    const who = 'perhaps by another Stillmark';
    return new InputError('port-in-use', `Port ${port} is in use, ${who}. Stop it, or choose another: --port ${portAfter(port, DEFAULT_PORT)}`);
  }
  if (code === 'EACCES') {
    return new InputError('port-refused', `The system does not allow port ${port}. Choose one above 1023: --port ${DEFAULT_PORT}`);
  }
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND') {
    return new InputError('host-unknown', `This computer has no address ${host}. Leave --host out, or give one of its own.`);
  }
  return error;
}
