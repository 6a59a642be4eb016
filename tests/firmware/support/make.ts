/**
 * What the firmware suites compile, once a run and only what has changed: sketches for the board,
 * programs for this computer. Everything lands in dist/firmware/.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';

const ROOT = resolve(import.meta.dirname, '../../..');
const FIRMWARE = join(ROOT, 'firmware-protocol/firmware');
const RUNNER = join(ROOT, 'tests/firmware/emulator/runner');
const OUT = join(ROOT, 'dist/firmware');

/** A sketch compiled with other constants than its own. */
export interface Variant {
  /** In the names of its files. */
  readonly name: string;
  readonly defines: Readonly<Record<string, string | number>>;
}

const made = new Map<string, Promise<void>>();
let before: Promise<void> = Promise.resolve();

/** The path of a sketch as machine code for the board. @throws with the compiler's words */
export async function sketch(name: 'adc-board' | 'monitor-board', variant?: Variant): Promise<string> {
  const defines = Object.entries(variant?.defines ?? {}).map(([key, value]) => `-D${key}=${value}`);
  const extra = variant === undefined ? [] : [`VARIANT=${variant.name}`, `EXTRA_DEFINES=${defines.join(' ')}`];
  await make(FIRMWARE, [name, ...extra]);
  return join(OUT, `${name}${variant === undefined ? '' : `-${variant.name}`}.elf`);
}

/** The path of the program that emulates a board. @throws with the compiler's words */
export async function emulator(): Promise<string> {
  await make(RUNNER, ['board']);
  return join(OUT, 'board');
}

/** Runs `make` there, with OUT=dist/firmware. One at a time: they share object files. */
export function make(folder: string, args: readonly string[]): Promise<void> {
  const key = [folder, ...args].join(' ');
  const known = made.get(key);
  if (known !== undefined) return known;
  const running = before.then(() => run(folder, args));
  // One that failed must not fail those behind it.
  before = running.catch(() => {});
  made.set(key, running);
  return running;
}

async function run(folder: string, args: readonly string[]): Promise<void> {
  mkdirSync(OUT, { recursive: true });
  const child = spawn('make', ['-C', folder, `OUT=${OUT}`, ...args], { stdio: ['ignore', 'ignore', 'pipe'] });
  let errors = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => (errors += text));
  const [code] = (await once(child, 'close')) as [number | null];
  if (code !== 0) throw new Error(`make -C ${folder} ${args.join(' ')} failed:\n${errors}`);
}
