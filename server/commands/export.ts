import { packageTarget } from '../carry/package-target.ts';
import { writePackage } from '../carry/write-package.ts';
import { openStoreReader, type StoreReader } from '../store/reader.ts';
import type { SessionInfo } from '../store/store.ts';
import { VERSION } from '../version.ts';
import { readArguments } from './arguments.ts';
import { InputError } from './exit-errors.ts';
import { unknownSession } from './sessions-known.ts';

const OPTIONS = {
  data: { type: 'string' },
  session: { type: 'string' },
  to: { type: 'string' },
  licence: { type: 'string' },
} as const;

/** `stillmark export`: one session as a Data Package, a folder or a zip archive. */
export async function exportSession(argv: readonly string[]): Promise<number> {
  const { values } = readArguments(argv, OPTIONS, 0);
  const { data, to, licence = null } = values;
  if (data === undefined) {
    throw new InputError('missing-data-folder', 'Name the data folder: stillmark export --data DIR --to FILE.zip');
  }
  if (to === undefined) {
    throw new InputError('missing-file', 'Say where to: stillmark export --data DIR --to FILE.zip (or a folder)');
  }
  if (licence !== null && !/^[-a-zA-Z0-9._]+$/.test(licence)) {
    throw new InputError('bad-value', `--licence takes an identifier such as CC-BY-4.0, not "${licence}".`);
  }
  const reader = openStoreReader(data);
  try {
    const session = chosen(reader, data, values.session);
    const leftOut = writePackage(reader, session, packageTarget(to), { program: VERSION, licence });
    for (const sentence of leftOut) console.error(`left out: ${sentence}`);
    console.log(`${session.id} (${session.name}) is in ${to}`);
    return 0;
  } finally {
    reader.close();
  }
}

/** The one that is named, else the newest. */
function chosen(reader: StoreReader, data: string, id: string | undefined): SessionInfo {
  const sessions = reader.sessions();
  const session = id === undefined ? sessions.at(-1) : sessions.find((one) => one.id === id);
  if (session !== undefined) return session;
  if (id === undefined) throw new InputError('unknown-session', `There is no session in ${data} yet.`);
  throw unknownSession(id, data, sessions);
}
