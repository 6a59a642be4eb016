import type { z } from 'zod';
import { HttpError } from './errors.ts';

/** Parses what a request brought; throws `bad-field` naming the first field that does not fit. */
export function parseWith<T>(schema: z.ZodType<T>, value: unknown): T {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  throw new HttpError('bad-field', describe(result.error.issues[0]));
}

function describe(issue: z.core.$ZodIssue | undefined): string {
  if (!issue) return 'The request does not fit.';
  if (issue.code === 'unrecognized_keys') {
    return `There is no field "${issue.keys.join('", "')}" here. Leave it out.`;
  }
  const what = issue.path.length === 0 ? 'The request' : `The field "${issue.path.join('.')}"`;
  const why = issue.message.replace(/^Invalid input: /, '').replace('received undefined', 'but it is missing');
  return `${what} does not fit: ${why}.`;
}
