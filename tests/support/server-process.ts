/** The built program as a child process, as a person would run it. */
import { spawn, type ChildProcess, type ChildProcessWithoutNullStreams } from 'node:child_process';
import { once } from 'node:events';
import { resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { StatusSchema, TrialsResponseSchema, type Status, type TrialView } from '#core/live-messages.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const PROGRAM = resolve(ROOT, 'dist/stillmark.js');
const DEMO_EXPERIMENT = resolve(ROOT, 'dist/demo-experiment.js');

export interface ServerProcess {
  readonly url: string;
  readonly child: ChildProcess;
  status(): Promise<Status>;
  trials(): Promise<TrialView[]>;
  /** As Ctrl-C does; resolves with the exit code. */
  stop(): Promise<number | null>;
  /** As a power cut does to the process. */
  kill(): Promise<void>;
}

/** Starts `stillmark serve` on a free port, unless one is named; resolves at its ready line. */
export async function startServer(...options: string[]): Promise<ServerProcess> {
  const port = options.includes('--port') ? [] : ['--port', '0'];
  const child = spawn(process.execPath, [PROGRAM, 'serve', ...port, ...options], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const exited = once(child, 'exit') as Promise<[number | null, NodeJS.Signals | null]>;
  const url = await readyUrl(child);
  // A connection of its own each time: a test that is busy finds a kept one closed by the server.
  const headers = { connection: 'close' };
  const get = async (path: string): Promise<unknown> => (await fetch(new URL(path, url), { headers })).json();
  return {
    url,
    child,
    status: async () => StatusSchema.parse(await get('/api/status')),
    trials: async () => TrialsResponseSchema.parse(await get('/api/trials')).trials,
    stop: async () => {
      child.kill('SIGINT');
      return (await exited)[0];
    },
    kill: async () => {
      child.kill('SIGKILL');
      await exited;
    },
  };
}

async function readyUrl(child: ChildProcess): Promise<string> {
  if (child.stdout === null) throw new Error('the server has no output');
  for await (const line of createInterface({ input: child.stdout })) {
    const match = /^Stillmark ready: (\S+)$/.exec(line);
    if (match?.[1] !== undefined) return match[1];
  }
  throw new Error(`the server ended before it was ready (exit code ${child.exitCode})`);
}

export interface CommandResult {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs one command of the command line to its end. */
export function runCommand(...args: string[]): Promise<CommandResult> {
  return run(PROGRAM, args);
}

/** Starts one command that reads what is written to its standard input. */
export function pipeInto(...args: string[]): ChildProcessWithoutNullStreams {
  return spawn(process.execPath, [PROGRAM, ...args], { cwd: ROOT, stdio: 'pipe' });
}

/** Plays a whole experiment, as `npm run demo:experiment` does. */
export function playDemonstration(...args: string[]): Promise<CommandResult> {
  return run(DEMO_EXPERIMENT, args);
}

async function run(program: string, args: readonly string[]): Promise<CommandResult> {
  const child = spawn(process.execPath, [program, ...args], { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'] });
  const parts = { stdout: '', stderr: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => (parts.stdout += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (parts.stderr += text));
  const [code] = (await once(child, 'close')) as [number | null];
  return { code, ...parts };
}

/** Asks again and again until the answer is wanted. @throws after the limit, with the last answer */
export async function until<T>(
  ask: () => Promise<T>,
  wanted: (answer: T) => boolean,
  limit_s: number,
): Promise<T> {
  const end_ms = performance.now() + limit_s * 1000;
  for (;;) {
    const answer = await ask();
    if (wanted(answer)) return answer;
    if (performance.now() > end_ms) {
      throw new Error(`not within ${limit_s} s; last answer: ${JSON.stringify(answer)}`);
    }
    await new Promise((resume) => setTimeout(resume, 100));
  }
}
