/** The board that was last in use with a data folder, to take it up again without asking. */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';

const FILE_NAME = 'board.json';
const RememberedSchema = z.object({ id: z.string() });

/** Its identity; null when none is remembered or the file can't be read. */
export async function recallBoard(dataFolder: string): Promise<string | null> {
  try {
    const text = await readFile(join(dataFolder, FILE_NAME), 'utf8');
    return RememberedSchema.parse(JSON.parse(text)).id;
  } catch {
    return null;
  }
}

/** A convenience only: where it can't be written, the board is asked for again next time. */
export async function rememberBoard(dataFolder: string, id: string): Promise<void> {
  await writeFile(join(dataFolder, FILE_NAME), JSON.stringify({ id })).catch(() => undefined);
}
