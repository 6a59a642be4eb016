import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { createBook } from '#core/experiment/trial-book.ts';
import { freshHead } from '#core/recording.ts';
import { createRecorder, type Recorder } from '../../server/recorder.ts';
import type { Commit, Store, StoredTrial } from '../../server/store/store.ts';
import { script } from '../support/bench-script.ts';

const INFO = {
  id: 1,
  sessionId: 's',
  startedAt: '2031-03-04T09:00:00.000Z',
  head: freshHead('board'),
  engineVersion: process.versions.v8,
};

let commits: Commit[];
let answer: () => Promise<StoredTrial[]>;
let told: string[];
/** How many commits there were each time that the experiment was to be shown anew. */
let shown: number[];
let recorder: Recorder;

beforeEach(() => {
  commits = [];
  told = [];
  shown = [];
  answer = () => Promise.resolve(stored(commits.at(-1)));
  const store: Pick<Store, 'commit'> = {
    commit: (_recordingId, commit) => {
      commits.push(commit);
      return answer();
    },
  };
  recorder = createRecorder(store, INFO, () => 0, createBook(), {
    event: (event) => void (event.kind === 'declared' && told.push('declared')),
    committed: (trials) => told.push(...trials.map(({ id, revision }) => `trial ${id}/${revision}`)),
    ask: (request) => told.push(`ask ${request.kind}`),
    experiment: () => shown.push(commits.length),
    cutOff: () => told.push('cut off'),
  });
});
afterEach(() => recorder.close());

const stored = (commit: Commit | undefined): StoredTrial[] =>
  (commit?.trials ?? []).map((trial) => ({ ...trial, recordedAt: INFO.startedAt, checksum: '00000000' }));

it('tells a trial only once it is committed, and what is settled at once', async () => {
  let release: () => void = () => undefined;
  answer = () => {
    const commit = commits.at(-1);
    return new Promise((resolve) => (release = () => resolve(stored(commit))));
  };
  for (const input of script().open().level(0, 2).level(2.4, 9).inputs) recorder.take(input);
  expect(told).toEqual(['declared']);
  answer = () => Promise.resolve([]);
  release();
  await vi.waitFor(() => expect(told).toEqual(['declared', 'trial 1/1']));
});

it('shows the experiment only as far as it is on disk', async () => {
  let release: () => void = () => undefined;
  answer = () => new Promise((resolve) => (release = () => resolve(stored(commits.at(-1)))));
  for (const input of script().open().level(0, 2).inputs) recorder.take(input);
  const before = shown.length;
  const plan = anglePlan(1);
  recorder.take({ kind: 'command', at_s: 2.1, command: { say: 'plan', plan } });
  expect(commits.at(-1)?.ledger?.plan).toEqual(plan);
  expect(shown).toHaveLength(before);
  release();
  await vi.waitFor(() => expect(shown).toHaveLength(before + 1));
  answer = () => Promise.resolve([]);
});

it('commits a trial with every input up to it, each input once', async () => {
  const { inputs } = script().open().level(0, 2).level(2.4, 12).level(0, 3).close('ended');
  for (const input of inputs) recorder.take(input);
  await recorder.flush();
  expect(commits.flatMap((commit) => commit.inputs)).toEqual(inputs);
  const [first] = commits;
  const trial = first?.trials[0];
  expect(first?.inputs.at(-1)?.at_s).toBe(trial?.recorded_s);
});

it('says once that the store can take the recording no further', async () => {
  answer = () => Promise.reject(new Error('the queue is full'));
  for (const input of script().open().level(0, 2).level(2.4, 12).level(0, 3).inputs) recorder.take(input);
  await recorder.flush();
  await recorder.flush();
  expect(told).toEqual(['declared', 'cut off']);
});
