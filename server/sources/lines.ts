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
  const parser = createParser();
  let arrived_s = 0;
  parser.on('data', (text: string) => {
    if (text !== '') tell({ kind: 'line', at_s: arrived_s, text });
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

/**
 * One string per line (`readableObjectMode`), without decoding (the guard lets only single-byte
 * characters through). A first read of nothing takes the stream out of its start-up state, in which
 * it would hand lines over in a later turn instead of while they are written.
 */
function createParser(): ReadlineParser {
  const parser = new ReadlineParser({ encoding: 'latin1', readableObjectMode: true });
  parser.read(0);
  return parser;
}
