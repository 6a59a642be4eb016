/**
 * Measures the store; run it with `node --import tsx tests/server/store/measure.ts`. It prints
 * what docs/data.md quotes: bytes a line, processor time for 1000 lines, and what an hour of 1 kHz
 * input, committed second by second, takes in file, memory and time.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Input } from '#core/inputs.ts';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { compressPacked, decodeInputs, encodeInputs, packInputs } from '../../../server/store/input-codec.ts';
import { openStore } from '../../../server/store/open.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { exampleLines, exampleTrial, HEAD, STARTED_AT, seeded } from './examples.ts';

measureCodec('50 Hz, committed each second', exampleLines(50, 50));
measureCodec('50 Hz, committed every 20 s', exampleLines(1000, 50));
measureCodec('1 kHz, committed each second', exampleLines(1000, 1000));
await measureHour();

function measureCodec(name: string, inputs: readonly Input[]): void {
  const packed = packInputs(inputs);
  const bytes = encodeInputs(inputs);
  const text_bytes = inputs.reduce((sum, input) => sum + (input.kind === 'line' ? input.text.length : 0), 0);
  const per1000 = (run: () => unknown): string => `${(cpu_ms(run) / (inputs.length / 1000)).toFixed(2)} ms`;
  console.log(
    `${name}: ${(text_bytes / inputs.length).toFixed(1)} B of text a line, ` +
      `${(bytes.length / inputs.length).toFixed(1)} B stored; for 1000 lines: ` +
      `pack ${per1000(() => packInputs(inputs))}, compress ${per1000(() => compressPacked(packed))}, ` +
      `decode ${per1000(() => decodeInputs(bytes))}`,
  );
}

/** Processor time of one run, the mean of many after a warm-up. */
function cpu_ms(run: () => unknown): number {
  const rounds = 200;
  for (let round = 0; round < rounds; round++) run();
  const begin = process.cpuUsage();
  for (let round = 0; round < rounds; round++) run();
  const { user, system } = process.cpuUsage(begin);
  return (user + system) / 1000 / rounds;
}

async function measureHour(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'stillmark-measure-'));
  const store = await openStore(folder);
  const session = await store.createSession('Measurement', 'simulated', STARTED_AT);
  const recording = await store.beginRecording(session.id, STARTED_AT, HEAD);
  const chance = seeded(7);
  const commit_ms: number[] = [];
  const begin = performance.now();
  for (let second = 0; second < 3600; second++) {
    const inputs = exampleLines(1000, 1000, second, chance);
    const trials = second % 30 === 0 ? [exampleTrial(second / 30 + 1)] : [];
    const asked = performance.now();
    await store.commit(recording.id, { inputs, trials, plateaus: [] });
    commit_ms.push(performance.now() - asked);
    if (second % 600 === 0) console.log(`after ${second} s: resident ${mebibytes(process.memoryUsage.rss())}`);
  }
  const passed_ms = performance.now() - begin;
  console.log(`after 3600 s: resident ${mebibytes(process.memoryUsage.rss())}`);
  console.log(`an hour of 1 kHz: written in ${(passed_ms / 1000).toFixed(1)} s; commits ${quantiles(commit_ms)}`);
  await store.close();
  console.log(`file ${mebibytes(statSync(dataFiles(folder).database).size)}`);
  await timed('opening it again', async () => (await openStore(folder)).close());
  await timed('reading every input', async () => {
    const reader = openStoreReader(folder);
    for (const _ of reader.inputs(recording.id));
    reader.close();
  });
  rmSync(folder, { recursive: true });
}

async function timed(name: string, run: () => Promise<void>): Promise<void> {
  const begin = performance.now();
  await run();
  console.log(`${name}: ${((performance.now() - begin) / 1000).toFixed(2)} s`);
}

function quantiles(values: number[]): string {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): string => `${(sorted[Math.floor(share * (sorted.length - 1))] ?? NaN).toFixed(1)} ms`;
  return `median ${at(0.5)}, 99th percentile ${at(0.99)}, longest ${at(1)}`;
}

function mebibytes(bytes: number): string {
  return `${(bytes / 2 ** 20).toFixed(1)} MiB`;
}
