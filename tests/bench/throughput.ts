import { z } from 'zod';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { createLineReader } from '../../server/sources/lines.ts';
import { chunksOf, plainLines, RATE_HZ } from './signal.ts';

const LINES = 1_000_000;
const CHUNK_B = 65_536;
const ROUNDS = 5;

/** Lines per second on one core through guard, line parser and the whole core, beside the baseline. */
export function measureThroughput(): void {
  const bytes = plainLines(LINES);
  const ways = { 'guard + parser + core': throughCore, 'naive: split, Number, zod': naive };
  const best = Object.fromEntries(Object.keys(ways).map((name) => [name, 0])) as Record<keyof typeof ways, number>;
  // Alternating, so that both meet the same state of the machine; the best of each counts.
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const [name, way] of Object.entries(ways) as [keyof typeof ways, typeof naive][]) {
      const started_ms = performance.now();
      const samples = way(bytes);
      if (samples !== LINES) throw new Error(`${name}: ${samples} samples from ${LINES} lines`);
      best[name] = Math.max(best[name], LINES / ((performance.now() - started_ms) / 1000));
    }
  }
  console.log(`${LINES} plain lines of a ${RATE_HZ} Hz board, best of ${ROUNDS}:`);
  for (const [name, rate] of Object.entries(best)) console.log(`  ${name}: ${Math.round(rate / 1000)} k lines/s`);
  const ratio = best['guard + parser + core'] / best['naive: split, Number, zod'];
  console.log(`  ratio to the naive baseline, which detects nothing: ${ratio.toFixed(2)}`);
}

/** What every line goes through, live as well. */
function throughCore(bytes: Uint8Array): number {
  let samples = 0;
  let state = begin(freshHead('board'), 1);
  const link = { source: 'serial', id: 'bench', name: 'bench', clock: 'arrival', wholeFromStart: true } as const;
  state = step(state, { kind: 'opened', at_s: 0, link }).state;
  const reader = createLineReader((input) => {
    const { events } = step(state, input);
    for (const event of events) if (event.kind === 'sample') samples += 1;
  });
  let arrived_B = 0;
  for (const chunk of chunksOf(bytes, CHUNK_B)) {
    arrived_B += chunk.length;
    reader.push(chunk, Math.round((arrived_B / bytes.length) * (LINES / RATE_HZ) * 1e6) / 1e6);
  }
  return samples;
}

const RowSchema = z.object({
  time_us: z.number(),
  voltage_V: z.number(),
  current_mA: z.number(),
  wind_mps: z.number(),
});

/** The least that a program could do with a line: no checks but zod's, no clock, no detector. */
function naive(bytes: Uint8Array): number {
  let samples = 0;
  let rest = '';
  let header = true;
  const decoder = new TextDecoder();
  for (const chunk of chunksOf(bytes, CHUNK_B)) {
    const lines = (rest + decoder.decode(chunk, { stream: true })).split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) {
      if (header) {
        header = false;
        continue;
      }
      const [time_us, voltage_V, current_mA, wind_mps] = line.split(',').map(Number);
      RowSchema.parse({ time_us, voltage_V, current_mA, wind_mps });
      samples += 1;
    }
  }
  return samples;
}
