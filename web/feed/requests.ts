/** What the page asks the program to do. */
import type { z } from 'zod';
import {
  ErrorResponseSchema,
  SessionPlanResponseSchema,
  SessionsResponseSchema,
  type SessionsResponse,
  TakenInResponseSchema,
  type TakenInResponse,
  TrialsResponseSchema,
  type TrialView,
} from '#core/live-messages.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { Told } from '../model/told.ts';

type Path = `/api/${string}`;

/** Why nothing was done, as the program says it. */
export type Refusal = Told & { readonly code: string };

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
  return read.success ? read.data : UNREADABLE;
}

/** Every state of a trial that was committed; none where they can't be had. */
export async function loadRevisions(trialId: number): Promise<readonly TrialView[]> {
  const answer = await askFor(TrialsResponseSchema, `/api/trials/${trialId}/revisions`);
  return isRefusal(answer) ? [] : answer.trials;
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
    if (response.ok) return { json: response.status === 204 ? null : await response.json() };
    return { refusal: await refusalIn(response) };
  } catch {
    return { refusal: NO_ANSWER };
  }
}

const NO_ANSWER: Refusal = {
  code: 'no-answer',
  message: 'The program did not answer. Nothing was changed; try again when it is back.',
};

const UNREADABLE: Refusal = {
  code: 'answer-unreadable',
  message: 'The answer of the program could not be read. Reload the page.',
};

async function refusalIn(response: Response): Promise<Refusal> {
  const refused = ErrorResponseSchema.safeParse(await response.json());
  return refused.success ? refused.data.error : UNREADABLE;
}

/** A kept session's plan; null where it has none. */
export async function loadPlan(id: string): Promise<Plan | null | Refusal> {
  const path = `/api/sessions/${encodeURIComponent(id)}/plan` as const;
  const answer = await askFor(SessionPlanResponseSchema, path);
  return isRefusal(answer) ? answer : answer.plan;
}

/** The session's file, and what it is to be called. */
export async function saveSession(id: string): Promise<{ file: Blob; name: string } | Refusal> {
  try {
    const response = await fetch(`/api/sessions/${encodeURIComponent(id)}/file`);
    if (!response.ok) return await refusalIn(response);
    return { file: await response.blob(), name: `stillmark-${id}.zip` };
  } catch {
    return NO_ANSWER;
  }
}

/** Sends a session's file to be taken in. */
export async function sendSession(file: File): Promise<TakenInResponse | Refusal> {
  try {
    const headers = { 'content-type': 'application/zip' };
    const response = await fetch('/api/sessions/file', { method: 'POST', headers, body: file });
    if (!response.ok) return await refusalIn(response);
    return TakenInResponseSchema.parse(await response.json());
  } catch {
    return FILE_UNANSWERED;
  }
}

/** It may have been taken in all the same, whole, and only the answer been lost. */
const FILE_UNANSWERED: Refusal = {
  code: 'file-unanswered',
  message: 'The program did not answer. When it is back, take the file in once more: what is here already comes in only once.',
};

/** The sessions that are kept; none when the program does not answer. */
export async function loadSessions(): Promise<SessionsResponse['sessions']> {
  try {
    const response = await fetch('/api/sessions');
    return SessionsResponseSchema.parse(await response.json()).sessions;
  } catch {
    return [];
  }
}
