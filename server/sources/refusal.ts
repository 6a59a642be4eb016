/** What it means that a port did not open, in words that say what to do. */
import { readdir, readFile, readlink, realpath, stat } from 'node:fs/promises';
import { userInfo } from 'node:os';
import { basename, join } from 'node:path';
import { PortRefusal, type RefusalCode } from './ports.ts';

/** What the system says when opening fails, by meaning. Windows calls a port in use "denied". */
const MEANINGS: readonly (readonly [RefusalCode, RegExp])[] = [
  ['busy', /cannot lock port|resource busy|access denied|port is locked/i],
  ['denied', /permission denied|operation not permitted/i],
  ['missing', /no such (file|device)|file not found/i],
];

/** Facts beside the system's message, as far as they can be found out. */
export interface RefusalFacts {
  /** Programs that have the port open, as far as they can be seen. */
  readonly holders: readonly string[];
  /** Group that owns the device node; null when unknown or when its members may not open it. */
  readonly group: string | null;
  /** The account is in that group already, but the login is older than that. */
  readonly loginIsOlder: boolean;
}

export const NOTHING_KNOWN: RefusalFacts = { holders: [], group: null, loginIsOlder: false };

/** Maps the system's message; the page shows the result as it stands. */
export function refusalOf(path: string, said: string, facts: RefusalFacts): PortRefusal {
  const code = codeOf(said);
  return new PortRefusal(code, messageOf(code, path, said, facts), aboutOf(code, path, facts));
}

function codeOf(said: string): RefusalCode {
  return MEANINGS.find(([, pattern]) => pattern.test(said))?.[0] ?? 'failed';
}

function messageOf(code: RefusalCode, path: string, said: string, facts: RefusalFacts): string {
  switch (code) {
    case 'busy': {
      const who = facts.holders.length === 0 ? 'another program' : facts.holders.join(' and ');
      return `${path} is in use by ${who}. Close it there; Stillmark then takes the board by itself.`;
    }
    case 'denied':
      return deniedMessage(path, facts);
    case 'missing':
      return `There is nothing at ${path}. Plug the board in, or see "stillmark boards" for the ports there are.`;
    case 'failed':
      if (/inappropriate ioctl|is a directory/i.test(said)) {
        return `${path} is not a serial port. See "stillmark boards" for the ports there are.`;
      }
      return `${path} would not open (the system says: ${said.trim()}). Unplug the board and plug it in again.`;
  }
}

/** The names in the message. */
function aboutOf(code: RefusalCode, path: string, facts: RefusalFacts): readonly string[] {
  switch (code) {
    case 'busy':
      return [path, facts.holders.join(', ')];
    case 'denied':
      return [path, facts.group ?? '', facts.loginIsOlder ? 'older' : ''];
    case 'missing':
    case 'failed':
      return [path];
  }
}

function deniedMessage(path: string, { group, loginIsOlder }: RefusalFacts): string {
  if (group === null) {
    return `This account may not use ${path}. docs/boards.md shows a rule that lets whoever sits at the computer use it.`;
  }
  if (loginIsOlder) {
    return `${path} is for the group ${group}. This account is in it, but only from the next login on: log out and in again.`;
  }
  return `${path} is for the group ${group}, and this account is not in it. Type: sudo usermod -aG ${group} "$USER" and then log out and in again.`;
}

/** Looks for what can be known on Linux; elsewhere nothing is. */
export async function findRefusalFacts(path: string, said: string): Promise<RefusalFacts> {
  if (process.platform !== 'linux') return NOTHING_KNOWN;
  const code = codeOf(said);
  if (code === 'busy') return { ...NOTHING_KNOWN, holders: await holdersOf(path) };
  if (code === 'denied') return { ...NOTHING_KNOWN, ...(await groupOf(path).catch(() => null)) };
  return NOTHING_KNOWN;
}

/** The other processes, of those this account may look into, that have the device open. */
export async function holdersOf(path: string): Promise<string[]> {
  const device = await realpath(path).catch(() => path);
  const holders: string[] = [];
  for (const pid of await readdir('/proc').catch(() => [])) {
    if (!/^\d+$/.test(pid) || Number(pid) === process.pid) continue;
    if (await hasOpen(join('/proc', pid, 'fd'), device)) {
      holders.push(`${await programOf(join('/proc', pid))} (process ${pid})`);
    }
  }
  return holders;
}

/** The name it was started by; `comm` would often be that of a thread. */
async function programOf(folder: string): Promise<string> {
  const started = await readFile(join(folder, 'cmdline'), 'utf8').catch(() => '');
  return basename(started.split('\0')[0] ?? '') || '(no name)';
}

async function hasOpen(folder: string, device: string): Promise<boolean> {
  for (const fd of await readdir(folder).catch(() => [])) {
    if ((await readlink(join(folder, fd)).catch(() => null)) === device) return true;
  }
  return false;
}

const GROUP_MAY_READ_AND_WRITE = 0o060;

/** The group that owns this very node, by the name it has on this system. */
async function groupOf(path: string): Promise<Pick<RefusalFacts, 'group' | 'loginIsOlder'> | null> {
  const { gid, mode } = await stat(path);
  if ((mode & GROUP_MAY_READ_AND_WRITE) !== GROUP_MAY_READ_AND_WRITE || gid === 0) return null;
  return groupFacts(await readFile('/etc/group', 'utf8'), gid, userInfo().username);
}

/** Reads `name:password:gid:members` lines (group(5)). */
export function groupFacts(
  table: string,
  gid: number,
  account: string,
): Pick<RefusalFacts, 'group' | 'loginIsOlder'> | null {
  const entry = table
    .split('\n')
    .map((line) => line.split(':'))
    .find(([, , id]) => id === String(gid));
  if (entry === undefined) return null;
  const [group = String(gid), , , members = ''] = entry;
  return { group, loginIsOlder: members.split(',').includes(account) };
}
