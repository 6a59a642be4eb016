/** The serial source over real pseudo-terminals, opened by the real port library. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync } from 'node:fs';
import { basename } from 'node:path';
import { afterEach, beforeEach, expect, it, onTestFinished, vi } from 'vitest';
import type { Input } from '#core/inputs.ts';
import type { PortState } from '#core/link.ts';
import { openSerial } from '../../server/sources/serial.ts';
import type { Source } from '../../server/sources/source.ts';
import { createSystemPorts } from '../../server/sources/system-ports.ts';
import { needsSocat } from '../support/needs.ts';
import { createPtyBoard, type PtyBoard } from '../support/pty-board.ts';

const PATIENCE = { timeout: 20_000, interval: 10 };

let board: PtyBoard;
let inputs: Input[];
let states: PortState[];
let sources: Source[];

function open(path = board.path): Source {
  const zero_ms = performance.now();
  const source = openSerial({
    want: { path },
    ports: createSystemPorts(),
    clock: () => Math.round((performance.now() - zero_ms) * 1000) / 1e6,
    listener: {
      input: (input) => inputs.push(input),
      port: (state) => states.push(state),
      offers: () => undefined,
    },
  });
  sources.push(source);
  return source;
}

const lines = (): string[] => inputs.flatMap((input) => (input.kind === 'line' ? [input.text] : []));
const kinds = (): string[] => inputs.map((input) => (input.kind === 'closed' ? input.reason : input.kind));
const phase = (): string | undefined => states.at(-1)?.phase;

async function untilPhase(wanted: PortState['phase']): Promise<void> {
  await vi.waitFor(() => expect(phase()).toBe(wanted), PATIENCE);
}
async function untilLines(count: number): Promise<void> {
  await vi.waitFor(() => expect(lines().length).toBeGreaterThanOrEqual(count), PATIENCE);
}

needsSocat().describe('serial source over a pseudo-terminal', () => {
  beforeEach(async () => {
    board = await createPtyBoard();
    inputs = [];
    states = [];
    sources = [];
  });
  afterEach(async () => {
    for (const source of sources) await source.close();
    await board.discard();
  });

  it('passes every line on, in order, with times that never go back', async () => {
    open();
    await untilPhase('open');
    const sent = Array.from({ length: 5000 }, (_, index) => `${index * 20},4.23,151.8`);
    for (let from = 0; from < sent.length; from += 100) {
      await board.send(sent.slice(from, from + 100).map((line) => `${line}\r\n`).join(''));
    }
    await untilLines(sent.length);
    expect(lines()).toEqual(sent);
    const times = inputs.map(({ at_s }) => at_s);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(times.every((time_s) => Math.abs(time_s * 1e6 - Math.round(time_s * 1e6)) < 1e-3)).toBe(true);
  });

  it('notices the unplugging and takes the board up again at the same path, half lines dropped', async () => {
    open();
    await untilPhase('open');
    await board.send('1,2\n3,4');
    await untilLines(1);
    await board.unplug();
    await untilPhase('unplugged');
    expect(kinds()).toEqual(['opened', 'line', 'unplugged']);
    await board.plugIn();
    await untilPhase('open');
    await board.send('56,7\n8,9\n');
    await untilLines(3);
    expect(lines()).toEqual(['1,2', '56,7', '8,9']);
    expect(kinds()).toEqual(['opened', 'line', 'unplugged', 'opened', 'line', 'line']);
  });

  it('counts garbage and keeps the lines around it', async () => {
    open();
    await untilPhase('open');
    const garbage = Uint8Array.from({ length: 200 }, (_, index) => 0x80 | (index * 37) % 0x80);
    await board.send('1,2\n');
    await board.send(garbage);
    await board.send(`\n3,4\n${'9'.repeat(400)}\n5,6\n`);
    await untilLines(3);
    await vi.waitFor(() => expect(kinds().filter((kind) => kind === 'dropped').length).toBeGreaterThan(0), PATIENCE);
    expect(lines()).toEqual(['1,2', '3,4', '5,6']);
    const dropped = inputs.flatMap((input) => (input.kind === 'dropped' ? [`${input.fault} ${input.count}`] : []));
    expect(dropped.sort()).toEqual(['malformed 1', 'tooLong 1']);
  });

  it('keeps a silent board open over the start-up grace, and hears it when it speaks', async () => {
    const source = open();
    await untilPhase('open');
    await new Promise((resolve) => setTimeout(resolve, 3500));
    source.presumeLost();
    await new Promise((resolve) => setTimeout(resolve, 1500));
    expect(kinds()).toEqual(['opened']);
    await board.send('1,2\n');
    await untilLines(1);
  });

  it('opens a board afresh that fell silent', async () => {
    const source = open();
    await untilPhase('open');
    await board.send('1,2\n3');
    await untilLines(1);
    source.presumeLost();
    await vi.waitFor(() => expect(kinds()).toEqual(['opened', 'line', 'unplugged', 'opened']), PATIENCE);
    await board.send('4,5\n6,7\n');
    await untilLines(3);
    expect(lines()).toEqual(['1,2', '4,5', '6,7']);
  });

  it('names the program that has the port, and takes it when it is free', async () => {
    const script = `
      const { SerialPort } = require('serialport');
      const port = new SerialPort({ path: ${JSON.stringify(board.path)}, baudRate: 9600 });
      port.on("open", () => console.log("open"));
      setInterval(() => {}, 1000); // An open port alone keeps no process alive.`;
    const holder = spawn(process.execPath, ['-e', script], { stdio: ['ignore', 'pipe', 'inherit'] });
    onTestFinished(() => void holder.kill());
    await once(holder.stdout, 'data');
    open();
    await untilPhase('refused');
    expect(states.at(-1)).toMatchObject({ code: 'busy' });
    if (process.platform === 'linux') {
      const program = `${basename(process.execPath)} (process ${holder.pid})`;
      expect(states.at(-1)).toHaveProperty('message', expect.stringContaining(program));
    }
    holder.kill();
    await once(holder, 'exit');
    await untilPhase('open');
    await board.send('1,2\n');
    await untilLines(1);
  });

  it('says that there is nothing at a path', async () => {
    open('/dev/no-such-board');
    await untilPhase('refused');
    expect(states.at(-1)).toMatchObject({ code: 'missing', board: { path: '/dev/no-such-board' } });
    expect(inputs).toEqual([]);
  });

  it('says that a file is not a port', async () => {
    open(import.meta.filename);
    await untilPhase('refused');
    expect(states.at(-1)).toHaveProperty('message', expect.stringContaining('is not a serial port'));
  });

  it('gives every handle back over fifty openings', async () => {
    const handles = (): number => (process.platform === 'linux' ? readdirSync('/proc/self/fd').length : 0);
    await openAndClose('warm up');
    const before = handles();
    for (let round = 0; round < 50; round += 1) await openAndClose(`${round},1`);
    expect(handles()).toBe(before);
    expect(lines().length).toBe(51);
  });

  it('survives ten unplugs and returns', async () => {
    open();
    for (let round = 0; round < 10; round += 1) {
      await untilPhase('open');
      await board.send(`${round},1\n${round}`);
      await untilLines(round + 1);
      await board.unplug();
      await untilPhase('unplugged');
      await board.plugIn();
    }
    await untilPhase('open');
    expect(lines()).toEqual(Array.from({ length: 10 }, (_, round) => `${round},1`));
  });

  async function openAndClose(line: string): Promise<void> {
    const opened = kinds().filter((kind) => kind === 'opened').length;
    const source = open();
    await vi.waitFor(() => expect(kinds().filter((kind) => kind === 'opened').length).toBe(opened + 1), PATIENCE);
    const told = lines().length;
    await board.send(`${line}\n`);
    await untilLines(told + 1);
    await source.close();
    expect(kinds().at(-1)).toBe('ended');
  }
});
