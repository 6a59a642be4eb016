/** What the page asks the program to do. */
import { ErrorResponseSchema, type ActionRequest, type LinkRequest } from '#core/live-messages.ts';

/** Posts a request. @returns null when it was done, else a sentence to show */
export async function post(
  path: '/api/actions' | '/api/link',
  request: ActionRequest | LinkRequest,
): Promise<string | null> {
  try {
    const response = await fetch(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(request),
    });
    if (response.ok) return null;
    const refused = ErrorResponseSchema.safeParse(await response.json());
    return refused.success ? refused.data.error.message : `It was refused (${response.status}).`;
  } catch {
    return 'The program did not answer. Nothing was changed; try again when it is back.';
  }
}
