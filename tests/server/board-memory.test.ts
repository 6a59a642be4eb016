import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DEFAULT_CONFIGURATION } from '#core/configuration.ts';
import { openBoardMemory } from '../../server/board-memory.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillmark-boards-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const NAMED = { ...DEFAULT_CONFIGURATION, columns: ['voltage_V', 'current_mA'] };

describe('what is known of boards', () => {
  it('is nothing at first', async () => {
    const memory = await openBoardMemory(folder);
    expect(memory.lastUsed()).toBeNull();
    expect(memory.settingsOf('usb:1')).toEqual(DEFAULT_CONFIGURATION);
  });

  it('is there again after a restart, for each board by itself', async () => {
    const memory = await openBoardMemory(folder);
    await Promise.all([memory.keepSettings('usb:1', NAMED), memory.keepLastUsed('usb:2')]);
    const again = await openBoardMemory(folder);
    expect(again.lastUsed()).toBe('usb:2');
    expect(again.settingsOf('usb:1')).toEqual(NAMED);
    expect(again.settingsOf('usb:2')).toEqual(DEFAULT_CONFIGURATION);
  });

  it.each(['', '{', '[]', '{"lastUsed":3,"settings":{}}', '{"lastUsed":null,"settings":{"usb:1":{"columns":7}}}'])(
    'begins anew when its file holds %s',
    async (text) => {
      writeFileSync(join(folder, 'boards.json'), text);
      const memory = await openBoardMemory(folder);
      expect(memory.settingsOf('usb:1')).toEqual(DEFAULT_CONFIGURATION);
      await memory.keepLastUsed('usb:1');
      expect(JSON.parse(readFileSync(join(folder, 'boards.json'), 'utf8'))).toMatchObject({ lastUsed: 'usb:1' });
    },
  );

  it('holds while the program runs even where nothing can be written', async () => {
    const memory = await openBoardMemory(join(folder, 'not-there'));
    await memory.keepSettings('usb:1', NAMED);
    expect(memory.settingsOf('usb:1')).toEqual(NAMED);
  });
});
