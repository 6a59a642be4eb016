/** What the trials say goes with the session: the same on the other laptop, and as files. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { analysisOf, type Analysis } from '#core/experiment/analysis/analysis.ts';
import { answerOf, comparedOf, type Answer } from '#core/experiment/answer/answer.ts';
import { compare } from '#core/experiment/comparison/compare.ts';
import { experimentKept } from '#core/experiment/conductor/view.ts';
import { EMPTY_LEDGER } from '#core/experiment/conductor/ledger.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { packageTarget } from '../../../server/carry/package-target.ts';
import { unpackSession } from '../../../server/carry/unpack.ts';
import { writePackage } from '../../../server/carry/write-package.ts';
import { openStore } from '../../../server/store/open.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import type { SessionInfo } from '../../../server/store/store.ts';
import { playExperiment } from '../../support/played-experiment.ts';
import { recordMore, recordSession, strikeAndNote } from '../../support/recorded-session.ts';
import { makeFolder, removeFolder } from '../store/folders.ts';

let folder = '';
let session: SessionInfo;
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = makeFolder();
  const { inputs } = playExperiment(4, { ...anglePlan(4), rounds: 2 });
  session = await recordSession(at('here'), 'Red table', inputs);
  await recordMore(at('here'), session, strikeAndNote);
  save('here', 'file.zip');
  unpackSession(at('file.zip'), at('stage'));
  const store = await openStore(at('there'));
  await store.takeIn(at('stage'));
  await store.close();
}, 60_000);
afterAll(() => removeFolder(folder));

function save(data: string, file: string): void {
  const reader = openStoreReader(at(data));
  writePackage(reader, session, packageTarget(at(file)), { program: '0.0.0', licence: null });
  reader.close();
}

function keptIn(data: string): { answer: Answer; analysis: Analysis } {
  const reader = openStoreReader(at(data));
  const trials = reader.trials(session.id);
  const experiment = experimentKept(reader.ledger(session.id) ?? EMPTY_LEDGER, trials);
  reader.close();
  return { answer: answerOf(experiment, trials)!, analysis: analysisOf(experiment, trials)! };
}

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
const textIn = (file: string, name: string): string =>
  strFromU8(unzipSync(readFileSync(at(file)))[name] ?? new Uint8Array(0));

describe('the analysis of a session that is carried', () => {
  it('is the same on the other side: answer, comparison, residuals, what could be better', () => {
    const [here, there] = [keptIn('here'), keptIn('there')];
    expect(here.answer.comparison.levels.length).toBeGreaterThan(3);
    expect(here.answer.settings.length).toBe(9);
    expect(plain(there)).toEqual(plain(here));
    const input = ({ answer }: typeof here) => ({
      factor: answer.factor.key,
      response: 'power_W',
      looks: 'once' as const,
      trials: answer.settings.map(comparedOf),
    });
    expect(compare(input(there))).toEqual(compare(input(here)));
    save('there', 'again.zip');
    expect(textIn('again.zip', 'analysis.json')).toBe(textIn('file.zip', 'analysis.json'));
  });

  it('is in the file, with its numbers and their units', () => {
    const { answer } = keptIn('here');
    const { comparison } = answer;
    const saved = JSON.parse(textIn('file.zip', 'analysis.json')) as { parts: { comparison: unknown }[] };
    expect(saved.parts[0]!.comparison).toEqual(plain(comparison));
    const rows = textIn('file.zip', 'analysis-levels.csv').trim().split('\r\n').slice(1);
    expect(rows.map((row) => row.split(',')[4])).toEqual(
      comparison.levels.map(({ mean }) => (mean === null ? '' : String(mean))),
    );
    const pairs = textIn('file.zip', 'analysis-pairs.csv').trim().split('\r\n').slice(1);
    expect(pairs.filter((row) => row.includes(',tukey,'))).toHaveLength(comparison.tukey?.length ?? 0);
    expect(pairs.length).toBeGreaterThan(0);
    const { resources } = JSON.parse(textIn('file.zip', 'datapackage.json')) as {
      resources: { name: string; schema?: { fields: { name: string; unit?: string }[] } }[];
    };
    const fields = resources.find(({ name }) => name === 'analysis-levels')?.schema?.fields ?? [];
    expect(fields.find(({ name }) => name === 'mean_W')?.unit).toBe('W');
  });
});
