/** docs/errors.md and the code name the same codes: each documented, none invented. */
import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PortStateSchema } from '#core/link.ts';
import { TROUBLES } from '#protocol/frame.ts';
import { CLOSINGS } from '../../../server/live/errors.ts';
import { HTTP_ERRORS, HttpError } from '../../../server/routes/errors.ts';

const ROOT = resolve(import.meta.dirname, '../../..');
const DOCUMENT = readFileSync(join(ROOT, 'docs/errors.md'), 'utf8');

const AFTER_CODE = /\bcode: ([^,;{}\n]+)/g;
const FIRST_ARGUMENT = /Error\(\s*('[^']+')/g;
const KEBAB = /'([a-z]+(?:-[a-z]+)*)'/g;

/** As docs/errors.md says: literals after `code:` and first arguments of `…Error(`. */
function codesIn(text: string): string[] {
  return [AFTER_CODE, FIRST_ARGUMENT]
    .flatMap((pattern) => [...text.matchAll(pattern)].map((match) => match[1] ?? ''))
    .flatMap((literals) => [...literals.matchAll(KEBAB)].map((match) => match[1] ?? ''));
}

function codesInSource(): Set<string> {
  const files = ['server', 'web', 'firmware-protocol'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name)),
  );
  const codes = new Set(files.flatMap((file) => codesIn(readFileSync(file, 'utf8'))));
  // The validator's own word for what a schema of ours refuses.
  codes.delete('custom');
  return codes;
}

function refusalsOfPorts(): string[] {
  const refused = PortStateSchema.options.find((option) => 'code' in option.shape);
  return refused && 'code' in refused.shape ? refused.shape.code.options : [];
}

/** First and second cells of all table rows that begin with a code. */
const ROWS = [...DOCUMENT.matchAll(/^\| `([a-z-]+)` \| ([^|]+) \|/gm)].map((row) => ({
  code: row[1] ?? '',
  second: (row[2] ?? '').trim(),
}));

describe('docs/errors.md', () => {
  const troubles = TROUBLES.map((trouble) => `board-${trouble}`);
  const coded = new Set([...codesInSource(), ...refusalsOfPorts(), ...troubles]);
  const documented = ROWS.map(({ code }) => code);

  it('names every code', () => {
    expect([...coded].filter((code) => !documented.includes(code))).toEqual([]);
    expect(coded.size).toBeGreaterThan(HTTP_ERRORS.length + Object.keys(CLOSINGS).length);
  });

  it('names no other code, and none twice', () => {
    expect(documented.filter((code) => !coded.has(code))).toEqual([]);
    expect(documented.filter((code, index) => documented.indexOf(code) !== index)).toEqual([]);
  });

  it('gives the status that goes with each', () => {
    const status = new Map(ROWS.map(({ code, second }) => [code, second]));
    for (const { code, status: coded } of [...HTTP_ERRORS, ...Object.values(CLOSINGS)]) {
      expect(`${code} ${status.get(code)}`).toBe(`${code} ${coded}`);
    }
  });

  it('is held to the code by a scan that finds both forms', () => {
    const text = "code: ok ? 'one-a' : 'two-b', message\nthrow new SomeError(\n  'three-c',\n); code: string";
    expect(codesIn(text)).toEqual(['one-a', 'two-b', 'three-c']);
  });
});

it('an error carries the status of its row', () => {
  for (const { code, status } of HTTP_ERRORS) expect(new HttpError(code, 'x').status).toBe(status);
});

it('a reason fits into a close frame (RFC 6455, 5.5: 125 bytes, two of them the code)', () => {
  for (const { code, sentence } of Object.values(CLOSINGS)) {
    expect(Buffer.byteLength(`${code}: ${sentence}`)).toBeLessThanOrEqual(123);
  }
});
