/**
 * The system's messages are those of the port library's native part, read in its source
 * (bindings-cpp 13, serialport_unix.cpp and serialport_win.cpp) with strerror(3) texts; "Resource
 * busy" is macOS's EBUSY. The group table is that of group(5).
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { groupFacts, holdersOf, NOTHING_KNOWN, refusalOf } from '../../../server/sources/refusal.ts';

const PATH = '/dev/ttyUSB0';

describe('what a refusal means', () => {
  it.each([
    ['Error Resource temporarily unavailable Cannot lock port', 'busy'],
    ['Error: Device or resource busy, cannot open /dev/ttyUSB0', 'busy'],
    ['Error: Resource busy, cannot open /dev/tty.usbmodem14', 'busy'],
    ['Opening COM3: Access denied', 'busy'],
    ['Error: Permission denied, cannot open /dev/ttyUSB0', 'denied'],
    ['Error: Operation not permitted, cannot open /dev/ttyUSB0', 'denied'],
    ['Error: No such file or directory, cannot open /dev/ttyUSB0', 'missing'],
    ['Error: No such device or address, cannot open /dev/ttyUSB0', 'missing'],
    ['Error: No such device, cannot open /dev/ttyUSB0', 'missing'],
    ['Opening COM3: File not found', 'missing'],
    ['Error: Input/output error, cannot open /dev/ttyUSB0', 'failed'],
    ['Opening COM3: Unknown error code 121', 'failed'],
  ])('%s: %s', (said, code) => {
    expect(refusalOf(PATH, said, NOTHING_KNOWN).code).toBe(code);
  });
});

describe('what to do about it', () => {
  const busy = 'Error Resource temporarily unavailable Cannot lock port';
  const denied = 'Error: Permission denied, cannot open /dev/ttyUSB0';

  it('names the program that has the port, where it is known', () => {
    const facts = { ...NOTHING_KNOWN, holders: ['screen (process 4711)'] };
    expect(refusalOf(PATH, busy, facts).message).toBe(
      '/dev/ttyUSB0 is in use by screen (process 4711). Close it there; Stillmark then takes the board by itself.',
    );
    expect(refusalOf(PATH, busy, NOTHING_KNOWN).message).toContain('in use by another program');
  });

  it('names the group that owns this node, and the command to join it', () => {
    const { message } = refusalOf(PATH, denied, { ...NOTHING_KNOWN, group: 'uucp' });
    expect(message).toContain('sudo usermod -aG uucp "$USER"');
    expect(message).toContain('log out and in');
  });

  it('says to log in again when the account has joined since', () => {
    const { message } = refusalOf(PATH, denied, { ...NOTHING_KNOWN, group: 'dialout', loginIsOlder: true });
    expect(message).toContain('log out and in again');
    expect(message).not.toContain('usermod');
  });

  it('points to the rule when no group would help', () => {
    expect(refusalOf(PATH, denied, NOTHING_KNOWN).message).toContain('docs/boards.md');
  });

  it('says that a file or folder is not a port', () => {
    const said = 'Error: Inappropriate ioctl for device setting custom baud rate of 13';
    expect(refusalOf('/tmp/notes.txt', said, NOTHING_KNOWN).message).toBe(
      '/tmp/notes.txt is not a serial port. See "stillmark boards" for the ports there are.',
    );
  });

  it('passes on what it cannot explain', () => {
    expect(refusalOf(PATH, 'Error: Input/output error', NOTHING_KNOWN).message).toContain('Input/output error');
  });
});

describe('the group table', () => {
  const table = 'root:x:0:\ndialout:x:20:ada,grace\nplugdev:x:46:ada\n';
  it('gives the name of the group and whether the account is in it', () => {
    expect(groupFacts(table, 20, 'grace')).toEqual({ group: 'dialout', loginIsOlder: true });
    expect(groupFacts(table, 46, 'grace')).toEqual({ group: 'plugdev', loginIsOlder: false });
  });
  it('says nothing of a group that is not in it', () => {
    expect(groupFacts(table, 999, 'ada')).toBeNull();
  });
});

describe.skipIf(process.platform !== 'linux')('the program that has a port', () => {
  it('is found by what it has open', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'held-'));
    const file = join(folder, 'port');
    writeFileSync(file, '');
    const holder = holdOpen(file);
    try {
      await once(holder.stdout ?? holder, 'data');
      expect(await holdersOf(file)).toEqual([`${basename(process.execPath)} (process ${holder.pid})`]);
    } finally {
      holder.kill();
      await once(holder, 'exit');
    }
    expect(await holdersOf(file)).toEqual([]);
    rmSync(folder, { recursive: true });
  });
});

function holdOpen(file: string): ChildProcess {
  const script = `require('fs').openSync(${JSON.stringify(file)}); console.log('open'); setInterval(() => {}, 1000);`;
  return spawn(process.execPath, ['-e', script], { stdio: ['ignore', 'pipe', 'inherit'] });
}
