/** Sessions saved as files and taken in, for the page at the bench. */
import { createWriteStream, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { Transform, type Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { FileError } from './carry/errors.ts';
import { doTask } from './carry/tasks.ts';
import { temporaryFolder } from './carry/temporary.ts';
import type { SavedFile } from './routes/app-port.ts';
import { HttpError } from './routes/errors.ts';
import type { Store, TakenIn } from './store/store.ts';
import { VERSION } from './version.ts';

/** An hour at 1 kHz is some 70 MB. */
const LARGEST_FILE_bytes = 512 * 2 ** 20;

/** In the data folder, where the next start finds what is left of a file that came halfway. */
const COMING_IN = 'coming-in';

export interface SessionFiles {
  save(sessionId: string): Promise<SavedFile>;
  takeIn(file: Readable): Promise<TakenIn>;
}

export function createSessionFiles(
  store: Pick<Store, 'sessions' | 'takeIn'>,
  dataFolder: string,
): SessionFiles {
  const comingIn = join(dataFolder, COMING_IN);
  // Of a server that was killed meanwhile: nobody else takes anything in here.
  rmSync(comingIn, { recursive: true, force: true });
  return {
    save: async (sessionId) => {
      const session = (await store.sessions()).find(({ id }) => id === sessionId);
      if (session === undefined) {
        throw new HttpError('session-unknown', 'That session is not in this data folder.');
      }
      const folder = temporaryFolder();
      const path = join(folder.path, 'session.zip');
      try {
        await doTask({ kind: 'save', dataFolder, sessionId, to: path, program: VERSION });
        return { path, name: `stillmark-${sessionId}.zip`, remove: folder.remove };
      } catch (error) {
        folder.remove();
        throw refused(error);
      }
    },
    takeIn: async (body) => {
      mkdirSync(comingIn, { recursive: true });
      const folder = temporaryFolder(comingIn);
      const file = join(folder.path, 'session.zip');
      const stageFolder = join(folder.path, 'stage');
      try {
        await pipeline(body, limited(LARGEST_FILE_bytes), createWriteStream(file));
        await doTask({ kind: 'unpack', file, stageFolder });
        return await store.takeIn(stageFolder);
      } catch (error) {
        throw refused(error);
      } finally {
        folder.remove();
      }
    },
  };
}

function limited(most_bytes: number): Transform {
  let count_bytes = 0;
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      count_bytes += chunk.length;
      const message = 'The file is larger than any lesson’s. Choose one that Stillmark has saved.';
      if (count_bytes > most_bytes) done(new FileError('file-too-large', message));
      else done(null, chunk);
    },
  });
}

function refused(error: unknown): unknown {
  if (!(error instanceof FileError)) return error;
  return new HttpError('file-refused', error.message, [error.code]);
}
