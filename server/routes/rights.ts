/**
 * Who may ask for what. A caller is the bench (this computer, at its own door), an operator (a
 * device with a pass), or a viewer (everybody else). A route that is not named here is the bench's
 * alone, so that something new is open to nobody by accident; what an operator may say and do is in
 * the core, because the phone's page shows it.
 */
import type { IncomingMessage } from 'node:http';
import type { Command } from '#core/experiment/command.ts';
import type { Undoable } from '#core/experiment/view.ts';
import type { ActionRequest } from '#core/live-messages.ts';
import { ROLES, type Role, type Who } from '#core/network.ts';
import { operatorMayAct, operatorMaySay } from '#core/operator-rights.ts';
import { isAtBench, remoteAddressOf } from './access.ts';
import { HttpError } from './errors.ts';

export interface Caller extends Who {
  /** It showed a credential that is not good (any more). */
  readonly wasOperator: boolean;
}

/** Who holds this credential, used from this address. */
export type HolderOf = (credential: string, address: string) => { name: string } | null;

export function callerOf(request: IncomingMessage, holderOf: HolderOf): Caller {
  if (isAtBench(request.socket)) return { role: 'bench', name: null, wasOperator: false };
  const credential = credentialOf(request);
  if (credential === null) return { role: 'viewer', name: null, wasOperator: false };
  const holder = holderOf(credential, remoteAddressOf(request.socket));
  if (holder === null) return { role: 'viewer', name: null, wasOperator: true };
  return { role: 'operator', name: holder.name, wasOperator: false };
}

/** What an operator's device shows with every request. */
export function credentialOf({ headers }: IncomingMessage): string | null {
  return /^Bearer ([\w-]{1,60})$/.exec(headers.authorization ?? '')?.[1] ?? null;
}

/** The least role that a route wants. */
export const LEAST_ROLE: Readonly<Record<string, Role>> = {
  'GET /api/me': 'viewer',
  'GET /api/status': 'viewer',
  'GET /api/trials': 'viewer',
  'GET /api/trials/:id/budget': 'viewer',
  'GET /api/trials/:id/revisions': 'viewer',
  'GET /api/plateaus': 'viewer',
  'GET /api/experiment': 'viewer',
  'POST /api/pass': 'viewer',
  'POST /api/experiment': 'operator',
  'POST /api/actions': 'operator',
  // Names of other groups' sessions, and what is plugged into this computer, are nobody else's.
  'GET /api/sessions': 'bench',
  'GET /api/boards': 'bench',
  'POST /api/sessions': 'bench',
  'GET /api/sessions/:id/plan': 'bench',
  'GET /api/sessions/:id/file': 'bench',
  'POST /api/sessions/file': 'bench',
  'POST /api/link': 'bench',
  'POST /api/board': 'bench',
  'GET /api/network': 'bench',
  'POST /api/network': 'bench',
  'POST /api/passes': 'bench',
  'GET /wiring': 'bench',
};

export function leastRole(method: string, path: string): Role {
  const reads = method === 'GET' || method === 'HEAD';
  const named = LEAST_ROLE[`${reads ? 'GET' : method} ${path}`];
  if (named !== undefined) return named;
  // The built pages and what they load.
  return reads && !path.startsWith('/api/') ? 'viewer' : 'bench';
}

/** @param undoes what undo would take back now */
export function maySay(role: Role, { say }: Command, undoes: Undoable | null): boolean {
  return role === 'bench' || (role === 'operator' && operatorMaySay(say, undoes));
}

export function mayAct(role: Role, { kind }: ActionRequest): boolean {
  return role === 'bench' || (role === 'operator' && operatorMayAct(kind));
}

export function isAtLeast(role: Role, least: Role): boolean {
  return ROLES.indexOf(role) >= ROLES.indexOf(least);
}

export function refusalFor({ role, wasOperator }: Caller): HttpError {
  if (wasOperator) {
    return new HttpError('pass-ended', 'This phone\u2019s pass is over: it only watches now. Ask for a new one at the laptop.');
  }
  if (role === 'operator') {
    return new HttpError('bench-only', 'This is done on the laptop itself.');
  }
  return new HttpError('viewers-only', 'This device can watch but not operate. Do it on the computer that runs Stillmark, or have a pass made there.');
}
