import type { FastifyInstance } from 'fastify';
import {
  DoorRequestSchema,
  PassClaimSchema,
  PassRequestSchema,
  type Held,
  type Network,
  type PassesResponse,
  type Who,
} from '#core/network.ts';
import { remoteAddressOf } from './access.ts';
import type { NetworkPort } from './network-port.ts';
import { parseWith } from './parse.ts';
import { credentialOf } from './rights.ts';

/** The room's network, from the bench; and passes, from the phones. */
export function serveNetwork(http: FastifyInstance, network: NetworkPort): void {
  http.get('/api/network', (): Network => network.view());
  http.post('/api/network', (request): Promise<Network> => {
    return network.door(parseWith(DoorRequestSchema, request.body));
  });
  http.post('/api/passes', async (request): Promise<PassesResponse> => {
    return network.pass(parseWith(PassRequestSchema, request.body));
  });

  http.get('/api/me', (request): Who => {
    const { role, name } = request.caller;
    return { role, name };
  });
  http.post('/api/pass', async (request, reply): Promise<Held | void> => {
    const claim = parseWith(PassClaimSchema, request.body);
    const address = remoteAddressOf(request.raw.socket);
    const held = network.claim(claim, { address, credential: credentialOf(request.raw) });
    if (held === null) return reply.code(204).send();
    return held;
  });
}
