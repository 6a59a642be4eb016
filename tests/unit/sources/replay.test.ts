import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Input } from '#core/inputs.ts';
import type { PortState } from '#core/link.ts';
import { openReplay } from '../../../server/sources/replay.ts';

let folder: string;
let inputs: Input[];
let states: PortState[];
let now_s: number;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'replay-'));
  inputs = [];
  states = [];
  now_s = 10;
  // Waiting costs no time here: the clock is moved on by what was to be waited.
  vi.stubGlobal('setTimeout', (act: () => void, wait_ms: number) => {
    now_s += wait_ms / 1000;
    queueMicrotask(act);
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
  rmSync(folder, { recursive: true });
});

function replay(content: string, speed = 1) {
  const file = join(folder, 'run.csv');
  writeFileSync(file, content);
  return openReplay({
    file,
    speed,
    clock: () => now_s,
    listener: {
      input: (input) => inputs.push(input),
      port: (state) => states.push(state),
      offers: () => undefined,
    },
  });
}

async function untilEnded(): Promise<void> {
  await vi.waitUntil(() => inputs.at(-1)?.kind === 'closed' && states.at(-1)?.phase === 'ended', { interval: 0 });
}

const arrivals = (): [string, number][] =>
  inputs.flatMap((input) => (input.kind === 'line' ? [[input.text, input.at_s] as [string, number]] : []));

describe('replaying a recording', () => {
  it('keeps its pace and ends with its last row', async () => {
    replay('time_s,voltage_V\n100,1\n101,2\n103,3\n');
    await untilEnded();
    expect(inputs[0]).toMatchObject({
      kind: 'opened',
      link: { source: 'replay', name: 'run.csv', clock: 'stream', wholeFromStart: true },
    });
    expect(arrivals()).toEqual([
      ['time_s,voltage_V', 10],
      ['100,1', 10],
      ['101,2', 11],
      ['103,3', 13],
    ]);
    expect(inputs.at(-1)).toEqual({ kind: 'closed', at_s: 13, reason: 'ended' });
    expect(states.at(-1)).toEqual({ phase: 'ended' });
  });

  it('runs faster by the factor asked for', async () => {
    replay('time_s,voltage_V\n100,1\n101,2\n103,3\n', 4);
    await untilEnded();
    expect(arrivals().map(([, at_s]) => at_s)).toEqual([10, 10, 10.25, 10.75]);
  });

  it('tells rows that are close together in one go rather than wait for each', async () => {
    replay(`time_s,voltage_V\n${Array.from({ length: 100 }, (_, i) => `${i / 1000},1`).join('\n')}\n`);
    await untilEnded();
    const times = new Set(arrivals().map(([, at_s]) => at_s));
    expect(arrivals().length).toBe(101);
    expect(times.size).toBeLessThanOrEqual(6);
  });

  it('goes on when the time column begins anew or cannot be read', async () => {
    replay('time_s,voltage_V\n50,1\n51,2\n0,3\n?,4\n1,5\n');
    await untilEnded();
    expect(arrivals().map(([, at_s]) => at_s)).toEqual([10, 10, 11, 11, 11, 12]);
  });

  it('paces by whatever unit the time column has', async () => {
    replay('voltage_V;time_ms\n1;0\n2;500\n');
    await untilEnded();
    expect(arrivals().map(([, at_s]) => at_s)).toEqual([10, 10, 10.5]);
  });

  it('says why it ended before the end of the file', async () => {
    replay('time_s,voltage_V\n0,1\n1,"2\n');
    await untilEnded();
    expect(states.at(-1)).toMatchObject({ phase: 'ended', message: expect.stringContaining('line 3') });
    expect(inputs.at(-1)).toMatchObject({ kind: 'closed', reason: 'ended' });
  });

  it('stops at once when another source takes over', async () => {
    const source = replay('time_s,voltage_V\n0,1\n1,2\n2,3\n');
    await source.close('replaced');
    expect(inputs.at(-1)).toMatchObject({ kind: 'closed', reason: 'replaced' });
    expect(arrivals().length).toBeLessThan(4);
    expect(states.at(-1)?.phase).toBe('replaying');
  });
});
