/**
 * Whether a folder lies on another computer. Locks and flushing to disk can't be relied on there
 * (https://sqlite.org/wal.html: "all processes using a database must be on the same host").
 * Known for Linux from the table of mounts, and for Windows from `\\server\share` paths.
 */
import { readFileSync, realpathSync } from 'node:fs';
import type { Notice } from '#core/events.ts';

/** File system types that reach another computer, as Linux names them. */
const REMOTE_TYPES = new Set([
  ...['9p', 'afs', 'ceph', 'cifs', 'coda', 'glusterfs', 'lustre', 'nfs', 'nfs4', 'smb3', 'smbfs'],
]);

export function networkFolderNotice(folder: string): Notice | null {
  const remote = process.platform === 'win32' ? isSharePath(folder) : isRemoteMount(folder);
  if (!remote) return null;
  return {
    code: 'network-folder',
    message:
      `The data folder ${folder} is on a network or synchronised drive. ` +
      'If the connection breaks or two computers write at once, trials can be lost: ' +
      'choose a folder on this computer with --data and copy exports to the drive instead.',
    about: [folder],
  };
}

export function isSharePath(folder: string): boolean {
  // `\\?\` and `\\.\` name local devices.
  return /^[\\/]{2}[^\\/?.]/.test(folder);
}

function isRemoteMount(folder: string): boolean {
  if (process.platform !== 'linux') return false;
  try {
    const type = mountType(realpathSync(folder), readFileSync('/proc/self/mounts', 'utf8'));
    return type !== null && isRemoteType(type);
  } catch {
    return false; // No table of mounts here: it can't be known.
  }
}

/** Drives made by a program of the user (`fuse.…`) are as a rule remote or synchronised. */
export function isRemoteType(type: string): boolean {
  return REMOTE_TYPES.has(type) || type.startsWith('fuse.');
}

/** The type of the file system that holds `path`, from a table in the form of fstab(5). */
export function mountType(path: string, table: string): string | null {
  let found: { point: string; type: string } | null = null;
  for (const line of table.split('\n')) {
    const [, escaped, type] = line.split(' ');
    if (escaped === undefined || type === undefined) continue;
    const point = escaped.replace(/\\([0-7]{3})/g, (_, octal: string) =>
      String.fromCharCode(parseInt(octal, 8)),
    );
    const below = point === '/' ? '/' : `${point}/`;
    const holds = path === point || path.startsWith(below);
    // Of mounts on one point the later one is on top.
    if (holds && point.length >= (found?.point.length ?? 0)) found = { point, type };
  }
  return found?.type ?? null;
}
