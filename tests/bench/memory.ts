import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { createLineReader } from '../../server/sources/lines.ts';
import { chunksOf, plainLines, RATE_HZ } from './signal.ts';

const HOUR_S = 3600;
const MINUTE_S = 60;

/** Heap in use after each ten minutes of an hour of 1 kHz samples, pushed through at full speed. */
export function measureMemory(): void {
  if (globalThis.gc === undefined) {
    console.log('left out: start with node --expose-gc (npm run bench does) to see memory in use');
    return;
  }
  let state = begin(freshHead('board'), 1);
  const link = { source: 'serial', id: 'bench', name: 'bench', clock: 'arrival', wholeFromStart: true } as const;
  state = step(state, { kind: 'opened', at_s: 0, link }).state;
  let trials = 0;
  const reader = createLineReader((input) => {
    for (const event of step(state, input).events) if (event.kind === 'trial') trials += 1;
  });
  // The same minute again and again, so without the board's time, which would begin anew.
  const minute = plainLines(MINUTE_S * RATE_HZ, false);
  const inUse_MB: number[] = [];
  for (let passed = 0; passed < HOUR_S / MINUTE_S; passed += 1) {
    let sent_B = 0;
    for (const chunk of chunksOf(minute, 4096)) {
      sent_B += chunk.length;
      const at_s = passed * MINUTE_S + (sent_B / minute.length) * MINUTE_S;
      reader.push(chunk, Math.round(at_s * 1e6) / 1e6);
    }
    if ((passed + 1) % 10 === 0) {
      globalThis.gc();
      inUse_MB.push(process.memoryUsage().heapUsed / 2 ** 20);
    }
  }
  console.log(`${HOUR_S * RATE_HZ} samples, ${trials} trial revisions; heap in use every ten minutes:`);
  console.log(`  ${inUse_MB.map((value) => `${value.toFixed(1)} MB`).join(', ')}`);
}
