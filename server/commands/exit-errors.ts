/** What the command line says and which code it ends with when something goes wrong. */

/** Wrong arguments or input: exit code 2. */
export class InputError extends Error {
  readonly code: string;
  constructor(code: string, message: string) {
    super(message);
    this.code = code;
  }
}

/** Codes of errors that mean "someone else has it": exit code 3. */
const IN_USE = new Set(['data-folder-in-use', 'port-in-use', 'busy', 'SQLITE_BUSY']);

/** 3 when something is in use, 2 for every other foreseen (coded) error, 1 for a fault of ours. */
export function exitCodeOf(error: unknown): number {
  const code = codeOf(error);
  if (code === null) return 1;
  return IN_USE.has(code) ? 3 : 2;
}

/** One sentence for a foreseen error; everything we have for a fault of ours. */
export function sentenceOf(error: unknown): string {
  if (codeOf(error) !== null) return `stillmark: ${(error as Error).message}`;
  return `stillmark: a fault of ours, please report it: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`;
}

/** Our own codes are kebab-case; Node's (ENOENT …) are not, and reaching here they are a fault. */
function codeOf(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return null;
  return /^[a-z]+(-[a-z]+)*$/.test(error.code) || IN_USE.has(error.code) ? error.code : null;
}
