/**
 * What is known of boards from earlier runs with this data folder: which was used last, to take it
 * up again without asking, and what the operator has set for each.
 */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { ConfigurationSchema, DEFAULT_CONFIGURATION, type Configuration } from '#core/configuration.ts';

const FILE_NAME = 'boards.json';
const MemorySchema = z.object({
  lastUsed: z.string().nullable(),
  settings: z.record(z.string(), ConfigurationSchema),
});

export interface BoardMemory {
  /** Identity of the board (or of what stood for one) that was used last; null: none is known. */
  lastUsed(): string | null;
  /** What was set for the board with this identity; the default where nothing was. */
  settingsOf(id: string): Configuration;
  keepLastUsed(id: string): Promise<void>;
  keepSettings(id: string, settings: Configuration): Promise<void>;
}

/** Begins with nothing where the file is missing or can't be read. */
export async function openBoardMemory(dataFolder: string): Promise<BoardMemory> {
  const file = join(dataFolder, FILE_NAME);
  const memory = await readMemory(file);
  let written = Promise.resolve();
  // A convenience only: where it can't be written, it holds as long as the program runs.
  const write = (): Promise<void> => {
    const text = JSON.stringify(memory, null, 2);
    written = written.then(() => writeFile(file, text)).catch(() => undefined);
    return written;
  };
  return {
    lastUsed: () => memory.lastUsed,
    settingsOf: (id) => memory.settings[id] ?? DEFAULT_CONFIGURATION,
    keepLastUsed: (id) => {
      memory.lastUsed = id;
      return write();
    },
    keepSettings: (id, settings) => {
      memory.settings[id] = settings;
      return write();
    },
  };
}

async function readMemory(file: string): Promise<z.infer<typeof MemorySchema>> {
  try {
    return MemorySchema.parse(JSON.parse(await readFile(file, 'utf8')));
  } catch {
    return { lastUsed: null, settings: {} };
  }
}
