/** What the page asks the program to do. */
import type { z } from 'zod';
import {
  ErrorResponseSchema,
  SessionsResponseSchema,
  type SessionsResponse,
} from '#core/live-messages.ts';

type Path = `/api/${string}`;

/** `code` is the program's own, null where it did not say one; `message` is to be shown. */
export interface Refusal {
  readonly code: string | null;
  readonly message: string;
}

/** Headers that go with what an operator does: who it is, and what it was meant for. */
export type Beside = Readonly<Record<string, string>>;

/** Posts a request. @returns null when it was done */
export async function post(
  path: Path,
  request: unknown,
  beside: Beside = {},
): Promise<Refusal | null> {
  const answer = await fetchJson(path, request, beside);
  return 'refusal' in answer ? answer.refusal : null;
}

/** Posts a request, or (undefined) gets, and reads the answer; a refusal where there is none. */
export async function askFor<T>(
  schema: z.ZodType<T>,
  path: Path,
  request?: unknown,
  beside: Beside = {},
): Promise<T | Refusal> {
  const answer = await fetchJson(path, request, beside);
  if ('refusal' in answer) return answer.refusal;
  const read = schema.safeParse(answer.json);
  return read.success ? read.data : { code: null, message: 'The answer could not be read.' };
}

export function isRefusal(answer: unknown): answer is Refusal {
  return typeof answer === 'object' && answer !== null && 'code' in answer && 'message' in answer;
}

async function fetchJson(
  path: Path,
  request: unknown,
  beside: Beside,
): Promise<{ json: unknown } | { refusal: Refusal }> {
  try {
    const response = await fetch(path, {
      headers: { ...(request !== undefined && { 'content-type': 'application/json' }), ...beside },
      ...(request !== undefined && { method: 'POST', body: JSON.stringify(request) }),
    });
    const json: unknown = response.status === 204 ? null : await response.json();
    if (response.ok) return { json };
    const refused = ErrorResponseSchema.safeParse(json);
    if (refused.success) return { refusal: refused.data.error };
    return { refusal: { code: null, message: `It was refused (${response.status}).` } };
  } catch {
    const message =
      'The program did not answer. Nothing was changed; try again when it is back.';
    return { refusal: { code: null, message } };
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
