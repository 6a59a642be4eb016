import type { FastifyInstance } from 'fastify';
import { InputError } from './commands/exit-errors.ts';

const LOOPBACK = new Set(['127.0.0.1', '::1', 'localhost']);

/**
 * Starts listening.
 * @returns the address for a person on this computer
 * @throws InputError port-in-use, port-refused or host-unknown, saying what to do
 */
export async function listenAt(
  http: FastifyInstance,
  { host, port }: { host: string; port: number },
): Promise<string> {
  try {
    await http.listen({ host, port });
  } catch (error) {
    throw wordsFor(error, host, port);
  }
  const address = http.server.address();
  const actualPort = typeof address === 'object' && address !== null ? address.port : port;
  const name = LOOPBACK.has(host) && host !== '::1' ? '127.0.0.1' : host === '::1' ? '[::1]' : '127.0.0.1';
  return `http://${name}:${actualPort}/`;
}

function wordsFor(error: unknown, host: string, port: number): unknown {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  if (code === 'EADDRINUSE') {
    const who = 'perhaps by another Stillmark';
    return new InputError('port-in-use', `Port ${port} is in use, ${who}. Stop it, or choose another: --port ${port + 1}`);
  }
  if (code === 'EACCES') {
    return new InputError('port-refused', `The system does not allow port ${port}. Choose one above 1023: --port 4680`);
  }
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND') {
    return new InputError('host-unknown', `This computer has no address ${host}. Leave --host out, or give one of its own.`);
  }
  return error;
}
