/** docs/data.md shows the tables and the bytes as they are. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { dataFiles } from '../../../server/store/data-folder.ts';
import { packInputs } from '../../../server/store/input-codec.ts';
import { openFolder } from '../../../server/store/open-folder.ts';
import { insertCommit, insertRecording, insertSession } from '../../../server/store/rows.ts';
import { migrate, SCHEMA_VERSION } from '../../../server/store/schema.ts';
import { openDatabase, type Database } from '../../../server/store/sqlite.ts';
import { exampleLines, HEAD, STARTED_AT } from './examples.ts';
import { temporaryFolder } from './folders.ts';

const DOCUMENT = readFileSync(resolve(import.meta.dirname, '../../../docs/data.md'), 'utf8');

function block(language: string): string {
  return new RegExp(`\`\`\`${language}\\n([^]*?)\`\`\``).exec(DOCUMENT)?.[1] ?? '';
}

function schemaOf(database: Database): unknown[] {
  const rows = database.all('SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name');
  return rows.map(({ sql }) => String(sql).replace(/\s+/g, ' '));
}

describe('docs/data.md', () => {
  it('shows the schema', () => {
    const made = openDatabase(':memory:');
    migrate(made);
    const shown = openDatabase(':memory:');
    shown.exec(block('sql'));
    expect(schemaOf(shown)).toEqual(schemaOf(made));
    expect(schemaOf(made).length).toBeGreaterThan(6);
    expect(DOCUMENT).toContain(`Version ${SCHEMA_VERSION} (\`PRAGMA user_version\`)`);
    made.close();
    shown.close();
  });

  const python = ['python3', 'python'].find((name) => spawnSync(name, ['--version']).status === 0);

  // Another language, other libraries: the format is what the document says.
  it.skipIf(python === undefined)('shows a program that reads the input', () => {
    const folder = temporaryFolder();
    const opened = openFolder(dataFiles(folder));
    const startedAt = STARTED_AT.toISOString();
    const session = insertSession(opened.database, { name: 'x', origin: 'simulated', startedAt });
    const { id } = insertRecording(opened.database, session.id, startedAt, HEAD);
    const inputs = exampleLines(3000, 1000);
    const chunks = [inputs.slice(0, 2000), inputs.slice(2000)].map(packInputs);
    insertCommit(opened.database, id, { chunks, trials: [], plateaus: [], learnt: null, ledger: null });
    opened.close();
    const { stdout, stderr } = spawnSync(python ?? '', ['-c', block('python')], { cwd: folder, encoding: 'utf8' });
    expect(stderr).toBe('');
    const lines = stdout.trim().split(/\r?\n/).map((line) => {
      const space = line.indexOf(' ');
      return { kind: 'line', at_s: Number(line.slice(0, space)), text: line.slice(space + 1) };
    });
    expect(lines).toEqual(inputs);
  });
});
