import type { z } from 'zod';
import { HttpError } from './errors.ts';

/** Parses what a request brought; throws `bad-field` naming the first field that does not fit. */
export function parseWith<T>(schema: z.ZodType<T>, value: unknown): T {
  const result = schema.safeParse(value, { reportInput: true });
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  throw new HttpError('bad-field', sentenceFor(issue), [issue?.path.join('.') ?? '']);
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'a text in quotes',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object with named fields',
};

function sentenceFor(issue: z.core.$ZodIssue | undefined): string {
  if (issue?.code === 'unrecognized_keys') {
    return `There is no field "${issue.keys.join('", "')}" here. Leave it out.`;
  }
  const path = issue?.path ?? [];
  const what = path.length === 0 ? 'The request' : `The field "${path.join('.')}"`;
  const must = issue === undefined ? 'fit what is expected here' : requirementOf(issue);
  return issue?.input === undefined ? `${what} is missing: it must ${must}.` : `${what} must ${must}.`;
}

/** What would have fitted, to follow on "must". */
function requirementOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `be ${TYPE_WORDS[issue.expected] ?? issue.expected}`;
    case 'invalid_value':
      return choiceOf(issue.values);
    case 'invalid_union':
      return choiceOf('options' in issue ? (issue.options ?? []) : []);
    case 'too_big':
      return `${boundWords(issue.origin)} at most ${issue.maximum}${unitWords(issue.origin)}`;
    case 'too_small': {
      const least = issue.inclusive === false ? 'more than' : 'at least';
      return `${boundWords(issue.origin)} ${least} ${issue.minimum}${unitWords(issue.origin)}`;
    }
    case 'invalid_format':
      return `be ${issue.message}`;
    case 'custom':
    case 'invalid_element':
    case 'invalid_key':
    case 'not_multiple_of':
    case 'unrecognized_keys':
      return `fit: ${issue.message}`;
  }
}

function choiceOf(values: readonly unknown[]): string {
  return `be ${values.map((value) => JSON.stringify(value)).join(' or ')}`;
}

function boundWords(origin: string): string {
  return origin === 'string' || origin === 'array' ? 'have' : 'be';
}

function unitWords(origin: string): string {
  if (origin === 'string') return ' characters';
  return origin === 'array' ? ' entries' : '';
}
