import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FileError } from '../../../server/carry/errors.ts';
import { packageTarget } from '../../../server/carry/package-target.ts';
import { openZip } from '../../../server/carry/zip-in.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillmark-zip-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const LIMIT_bytes = 1_000_000;

/** What reading `name` out of these bytes gives: the text, or the code of the refusal. */
function readOf(bytes: Uint8Array, name = 'a.txt', limit_bytes = LIMIT_bytes): string {
  const path = join(folder, 'given.zip');
  writeFileSync(path, bytes);
  try {
    const zip = openZip(path);
    try {
      return Buffer.concat([...zip.read(name, limit_bytes)]).toString();
    } finally {
      zip.close();
    }
  } catch (error) {
    // Anything but a sentence for a person fails the test.
    if (error instanceof FileError) return error.code;
    throw error;
  }
}

const GOOD = zipSync({ 'a.txt': strToU8('still '.repeat(500)), 'b.txt': [strToU8('stored'), { level: 0 }] });

describe('a zip archive from anybody', () => {
  it('is read, deflated or stored', () => {
    expect(readOf(GOOD)).toBe('still '.repeat(500));
    expect(readOf(GOOD, 'b.txt')).toBe('stored');
  });

  it('is refused where it lacks what is wanted, or is no archive', () => {
    expect(readOf(GOOD, 'c.txt')).toBe('file-not-session');
    expect(readOf(strToU8('no archive'))).toBe('file-not-session');
    expect(readOf(new Uint8Array(0))).toBe('file-not-session');
  });

  it('never unpacks more than is allowed: a bomb ends at the limit', () => {
    const bomb = zipSync({ 'a.txt': new Uint8Array(50_000_000) });
    expect(bomb.length).toBeLessThan(100_000);
    expect(readOf(bomb)).toBe('file-too-large');
  });

  it('with one byte altered gives what was written, or a refusal', () => {
    fc.assert(
      fc.property(fc.nat(GOOD.length - 1), fc.integer({ min: 1, max: 255 }), (at, change) => {
        const altered = GOOD.slice();
        altered[at] = (altered[at] ?? 0) ^ change;
        const read = readOf(altered);
        expect(read === 'still '.repeat(500) || read.startsWith('file-')).toBe(true);
      }),
      { numRuns: 400 },
    );
  });

  it('cut off anywhere, or with anything in its place, is refused and nothing else', () => {
    for (let length = 0; length < GOOD.length; length += 1) {
      expect(readOf(GOOD.slice(0, length))).toMatch(/^file-/);
    }
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(readOf(bytes)).toMatch(/^file-/);
        expect(readOf(Buffer.concat([bytes, GOOD.slice(-80)]))).toMatch(/^file-/);
      }),
    );
  });
});

describe('a package that is written', () => {
  const write = (path: string): void => {
    const target = packageTarget(path);
    target.write('a.txt', ['one ', 'two', strToU8(' three')]);
    target.finish();
  };

  it('is the same bytes whatever the time zone', () => {
    const zone = process.env['TZ'];
    const bytes = ['Pacific/Kiritimati', 'America/Los_Angeles'].map((name, at) => {
      process.env['TZ'] = name;
      const path = join(folder, `zone-${at}.zip`);
      write(path);
      return readFileSync(path, 'hex');
    });
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
    expect(bytes[0]).toBe(bytes[1]);
  });

  it('never takes the place of something that is there', () => {
    const path = join(folder, 'there.zip');
    write(path);
    expect(() => write(path)).toThrow(FileError);
    expect(() => write(folder)).toThrow(FileError);
  });
});
