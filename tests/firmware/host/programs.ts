/** The firmware's library compiled for this computer, and what the suites here have in common. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { make } from '../support/make.ts';

const HERE = import.meta.dirname;
const OUT = join(HERE, '../../../dist/firmware');

/**
 * What differs between two implementations is found by chance: `FUZZ_SEED=… npx vitest …` repeats
 * a run.
 */
export const SEED = Number(process.env['FUZZ_SEED'] ?? Date.now() % 2 ** 31);
export const SEEDED = `(repeat it with FUZZ_SEED=${SEED})`;

/** A program compiled with other constants than its own. */
export interface HostVariant {
  /** In the name of its file. */
  readonly name: string;
  readonly defines: string;
}

/** Compiles a program of the Makefile here; its path. @throws with the compiler's words */
export async function program(
  name: 'lines' | 'board' | 'fast-board',
  variant?: HostVariant,
): Promise<string> {
  const extra =
    variant === undefined ? [] : [`VARIANT=${variant.name}`, `EXTRA_DEFINES=${variant.defines}`];
  await make(HERE, [name, ...extra]);
  return join(OUT, `host-${name}${variant === undefined ? '' : `-${variant.name}`}`);
}

/** Gives it all lines at once; the lines it answers. @throws when it stops with an error */
export async function answersOf(
  name: 'lines' | 'board',
  lines: readonly string[],
): Promise<string[]> {
  const child = spawn(await program(name), [], { stdio: ['pipe', 'pipe', 'pipe'] });
  let output = '';
  let errors = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => (output += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (errors += text));
  child.stdin.on('error', () => {
    // It stopped early; its own words say why.
  });
  child.stdin.end(lines.map((line) => `${line}\n`).join(''));
  const [code] = (await once(child, 'close')) as [number | null];
  if (code !== 0) throw new Error(`${name} stopped with code ${code}: ${errors}`);
  return output.split('\n').slice(0, -1);
}

/** A case of `lines`: a word, then the fields. */
export function fields(...texts: readonly (string | number)[]): string {
  return texts.join('\t');
}

export function hexadecimal(text: string): string {
  return Buffer.from(text, 'latin1').toString('hex');
}
