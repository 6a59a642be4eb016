/** What a board makes of a host's bytes, put together from the TypeScript parts: the oracle. */
import { checksum } from '#protocol/checksum.ts';
import { createLineGuard } from '#protocol/line-guard.ts';
import { parseRequest } from '#protocol/stillmark-line.ts';

/** The most characters that a board reads of a request. */
export const REQUEST_LIMIT = 64;

/** In the words of the program `lines`. */
export function requestsIn(bytes: Uint8Array): string {
  const clean = Buffer.from(createLineGuard().push(bytes)).toString('latin1');
  const lines = clean.split('\n').slice(0, -1);
  return lines.filter((line) => line.length <= REQUEST_LIMIT).map(wordsFor).join('');
}

function wordsFor(line: string): string {
  const request = parseRequest(line);
  switch (request.kind) {
    case 'identify':
      return 'identify;';
    case 'pace':
      return `pace ${request.period_us};`;
    case 'zero':
      return `zero ${request.channel};`;
    case 'fault':
      return isSealedAsk(line) ? 'other;' : '';
  }
}

/** Answered as unknown: an `$ask` with a right checksum. */
function isSealedAsk(line: string): boolean {
  const body = line.slice(1, -5);
  return line === sealed(body) && body.split(',')[0] === 'ask';
}

export function sealed(body: string): string {
  return `$${body}*${checksum(body).toString(16).toUpperCase().padStart(4, '0')}`;
}
