import { ReadlineParser } from '@serialport/parser-readline';
import { createLineGuard } from '#protocol/line-guard.ts';
import type { Input } from '#core/inputs.ts';

/** Bytes of one connection to inputs: guard, then line parser, both fresh. */
export interface LineReader {
  /** Tells each line that `chunk` ends, all with the chunk's arrival time, before it returns. */
  push(chunk: Uint8Array, at_s: number): void;
}

/**
 * A reader for one connection. A line that has begun but not ended is dropped with the reader, so
 * the half before an unplug never fuses with the half after it.
 */
export function createLineReader(tell: (input: Input) => void): LineReader {
  const guard = createLineGuard();
  // The guard lets only ASCII through, so there is nothing to decode. Object mode: one string is
  // one line, whatever waits in the stream.
  const parser = new ReadlineParser({ encoding: 'latin1', readableObjectMode: true });
  let arrived_s = 0;
  parser.on('data', (text: string) => {
    tell({ kind: 'line', at_s: arrived_s, text });
  });
  return {
    push(chunk, at_s) {
      arrived_s = at_s;
      const clean = guard.push(chunk);
      if (clean.length > 0) parser.write(clean);
      for (const { fault, count } of guard.takeDropped()) {
        tell({ kind: 'dropped', at_s, fault, count });
      }
    },
  };
}
