import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { defaultDataFolder, prepareDataFolder } from '../../../server/store/data-folder.ts';
import { isRemoteType, isSharePath, mountType } from '../../../server/store/mounts.ts';
import { openStore } from '../../../server/store/open.ts';
import { temporaryFolder } from './folders.ts';

describe('the default data folder', () => {
  it('follows the XDG Base Directory Specification on Linux', () => {
    expect(defaultDataFolder('linux', {}, '/home/ada')).toBe('/home/ada/.local/share/stillmark');
    expect(defaultDataFolder('linux', { XDG_DATA_HOME: '/data' }, '/home/ada')).toBe('/data/stillmark');
    // "All paths set in these environment variables must be absolute … [else] ignore".
    const relative = { XDG_DATA_HOME: 'data' };
    expect(defaultDataFolder('linux', relative, '/home/ada')).toBe('/home/ada/.local/share/stillmark');
  });

  it('is where macOS and Windows keep data of one user on one computer', () => {
    const mac = '/Users/ada/Library/Application Support/Stillmark';
    expect(defaultDataFolder('darwin', {}, '/Users/ada')).toBe(mac);
    const local = { LOCALAPPDATA: 'C:\\Users\\ada\\AppData\\Local' };
    expect(defaultDataFolder('win32', local, 'C:\\Users\\ada')).toBe('C:\\Users\\ada\\AppData\\Local\\Stillmark');
    expect(defaultDataFolder('win32', {}, 'C:\\Users\\ada')).toBe('C:\\Users\\ada\\AppData\\Local\\Stillmark');
  });
});

describe('a data folder', () => {
  it('is made where it is missing', async () => {
    const folder = join(temporaryFolder(), 'a', 'b');
    const store = await openStore(folder);
    expect(await store.newestSession('simulated')).toBeNull();
    await store.close();
  });

  it('that is a file is refused with a sentence', async () => {
    const file = join(temporaryFolder(), 'file');
    writeFileSync(file, 'something of someone');
    for (const folder of [file, join(file, 'below')]) {
      expect(() => prepareDataFolder(folder)).toThrow(/can't be used/);
      await expect(openStore(folder)).rejects.toMatchObject({
        code: 'data-folder-unusable',
        message: expect.stringContaining(folder) as string,
      });
    }
  });
});

describe('a folder on another computer', () => {
  // Lines as proc(5) and fstab(5) describe them.
  const table = [
    '/dev/sda1 / ext4 rw,relatime 0 0',
    'proc /proc proc rw 0 0',
    'server:/home /home nfs4 rw,vers=4.2 0 0',
    '//server/class /mnt/class\\040room cifs rw 0 0',
    'someone@server: /home/ada/remote fuse.sshfs rw 0 0',
    '/dev/sdb1 /media/stick vfat rw 0 0',
    '',
  ].join('\n');

  it.each([
    ['/var/data', 'ext4', false],
    ['/home', 'nfs4', true],
    ['/home/ada/data', 'nfs4', true],
    ['/homely', 'ext4', false],
    ['/mnt/class room/data', 'cifs', true],
    ['/home/ada/remote/x', 'fuse.sshfs', true],
    ['/media/stick/data', 'vfat', false],
  ])('is known by its file system: %s is %s', (path, type, remote) => {
    expect(mountType(path, table)).toBe(type);
    expect(isRemoteType(type)).toBe(remote);
  });

  it('knows the mount on top when two share a point', () => {
    expect(mountType('/home/x', `${table}tmpfs /home tmpfs rw 0 0\n`)).toBe('tmpfs');
  });

  it.each([
    ['\\\\server\\share\\data', true],
    ['//server/share', true],
    ['\\\\?\\C:\\data', false],
    ['C:\\data', false],
    ['data', false],
  ])('is known by its path on Windows: %s %s', (path, remote) => {
    expect(isSharePath(path)).toBe(remote);
  });
});
