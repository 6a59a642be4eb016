import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { linkObstacle } from '../../server/setup.mjs';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillmark-setup-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A junction needs no special rights on Windows; elsewhere it is a link like any other. */
const link = (name: string, target: string): string => {
  symlinkSync(join(folder, target), join(folder, name), 'junction');
  return join(folder, name);
};

describe('dependencies are not installed through a link', () => {
  it('says where it leads and what to do', () => {
    mkdirSync(join(folder, 'shared'));
    writeFileSync(join(folder, 'shared', 'package'), '');
    const said = linkObstacle(link('node_modules', 'shared'));
    expect(said).toContain('shared, and installing would empty');
    expect(said).toContain('Remove the link');
  });

  it('nor through one that leads nowhere', () => {
    expect(linkObstacle(link('loose', 'gone'))).toContain('a link to nothing');
  });

  it('but into a folder of their own, or where there is none yet', () => {
    expect(linkObstacle(join(folder, 'shared'))).toBeNull();
    expect(linkObstacle(join(folder, 'none'))).toBeNull();
  });
});
