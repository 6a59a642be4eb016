/** What the page asks the program to do. */
import type { Command } from '#core/experiment/command.ts';
import {
  ErrorResponseSchema,
  type ActionRequest,
  type BoardRequest,
  type LinkRequest,
  SessionsResponseSchema,
  type SessionRequest,
  type SessionsResponse,
} from '#core/live-messages.ts';

/** `code` is the program's own, null where it did not say one; `message` is to be shown. */
export interface Refusal {
  readonly code: string | null;
  readonly message: string;
}

/** Posts a request. @returns null when it was done */
export async function post(
  path: '/api/actions' | '/api/link' | '/api/board' | '/api/experiment' | '/api/sessions',
  request: ActionRequest | LinkRequest | BoardRequest | Command | SessionRequest,
): Promise<Refusal | null> {
  try {
    const response = await fetch(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(request),
    });
    if (response.ok) return null;
    const refused = ErrorResponseSchema.safeParse(await response.json());
    if (refused.success) return refused.data.error;
    return { code: null, message: `It was refused (${response.status}).` };
  } catch {
    const message =
      'The program did not answer. Nothing was changed; try again when it is back.';
    return { code: null, message };
  }
}

/** The sessions that are kept; none when the program does not answer. */
export async function loadSessions(): Promise<SessionsResponse['sessions']> {
  try {
    const response = await fetch('/api/sessions');
    return SessionsResponseSchema.parse(await response.json()).sessions;
  } catch {
    return [];
  }
}
