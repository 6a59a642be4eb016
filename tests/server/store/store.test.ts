import { describe, expect, it } from 'vitest';
import type { Trial } from '#core/experiment/trial.ts';
import type { StoreState } from '#core/live-messages.ts';
import { EMPTY_LEDGER } from '#core/experiment/conductor/ledger.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import type { Learnt } from '#core/signal/learnt.ts';
import { createDetector, learntOf } from '#core/signal/settling/detector.ts';
import { openStore, type StoreSettings } from '../../../server/store/open.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import type { Commit, RecordingInfo, Store } from '../../../server/store/store.ts';
import { exampleLines, examplePlateau, exampleTrial, HEAD, markerLine, STARTED_AT } from './examples.ts';
import { holdElsewhere, temporaryFolder, until } from './folders.ts';

async function begin(
  folder: string,
  settings?: StoreSettings,
): Promise<{ store: Store; recording: RecordingInfo }> {
  const store = await openStore(folder, settings);
  const session = await store.createSession('Morning group', 'simulated', STARTED_AT);
  return { store, recording: await store.beginRecording(session.id, STARTED_AT, HEAD) };
}

const only = (part: Partial<Commit>): Commit => ({ inputs: [], trials: [], plateaus: [], ...part });

describe('the store', () => {
  it('keeps what is committed, across a restart', async () => {
    const folder = temporaryFolder();
    const { store, recording } = await begin(folder);
    const inputs = exampleLines(500, 50);
    const trials = [exampleTrial(1), exampleTrial(2, { state: 'interrupted' })];
    const plateaus = [examplePlateau(1), examplePlateau(null)];
    const stored = await store.commit(recording.id, { inputs, trials, plateaus });
    await store.close();

    const again = await openStore(folder);
    const session = await again.newestSession('simulated');
    expect(session).toMatchObject({ name: 'Morning group', startedAt: STARTED_AT.toISOString() });
    expect(await again.newestSession('board')).toBeNull();
    expect(await again.trials(recording.sessionId)).toEqual(stored);
    expect((await again.plateaus(recording.sessionId)).map(({ trialId }) => trialId)).toEqual([1, null]);
    expect(again.problems()).toEqual([]);
    await again.close();

    const reader = openStoreReader(folder);
    expect([session]).toMatchObject(reader.sessions());
    expect(reader.recordings(recording.sessionId)).toEqual([recording]);
    expect([...reader.inputs(recording.id)]).toEqual(inputs);
    expect(reader.trialRevisions(recording.id)).toEqual(trials);
    expect(reader.plateaus(recording.id)).toEqual(plateaus);
    expect(reader.problems()).toEqual([]);
    reader.close();
  });

  it('dates a trial by its own recording, and tells its checksum', async () => {
    const { store, recording } = await begin(temporaryFolder());
    const [trial] = await store.commit(recording.id, only({ trials: [exampleTrial(1)] }));
    // 09:00:00.000 and 25.130001 s.
    expect(trial?.recordedAt).toBe('2031-03-04T09:00:25.130Z');
    expect(trial?.checksum).toMatch(/^[0-9a-f]{8}$/);
    await store.close();
  });

  it('keeps every revision and answers with the newest, whichever recording brought it', async () => {
    const folder = temporaryFolder();
    const { store, recording } = await begin(folder);
    const first = [exampleTrial(1), exampleTrial(1, { revision: 2, state: 'final' }), exampleTrial(2)];
    await store.commit(recording.id, only({ trials: first }));
    const later = new Date('2031-03-05T10:00:00Z');
    const second = await store.beginRecording(recording.sessionId, later, { ...HEAD, firstTrialId: 3 });
    const struck: Trial = exampleTrial(1, { revision: 3, struck: true, strikeReason: 'blade slipped' });
    const [revised] = await store.commit(second.id, only({ trials: [struck] }));
    expect(revised?.recordedAt).toBe('2031-03-04T09:00:25.130Z');
    const newest = await store.trials(recording.sessionId);
    expect(newest.map(({ id, revision, struck: set }) => [id, revision, set])).toEqual([
      [1, 3, true],
      [2, 1, false],
    ]);
    await store.close();
    const reader = openStoreReader(folder);
    expect(reader.trialRevisions(recording.id)).toEqual(first);
    expect(reader.trialRevisions(second.id)).toEqual([struck]);
    reader.close();
  });

  it('remembers what the detector learnt last', async () => {
    const { store, recording } = await begin(temporaryFolder());
    expect(await store.learnt(recording.sessionId)).toBeNull();
    const nothing = learntOf(createDetector(null));
    await store.commit(recording.id, only({ learnt: nothing }));
    const learnt: Learnt = { ...nothing, lag: { logLag: -0.5, weight: 2 } };
    await store.commit(recording.id, only({ learnt }));
    await store.commit(recording.id, only({ inputs: exampleLines(1, 50) }));
    expect(await store.learnt(recording.sessionId)).toEqual(learnt);
    await store.close();
  });

  it('resumes the session that was recorded into last, though another was begun after it', async () => {
    const { store, recording } = await begin(temporaryFolder());
    const later = new Date(STARTED_AT.getTime() + 3_600_000);
    const { id } = await store.createSession('Afternoon', 'simulated', later);
    expect((await store.newestSession('simulated'))?.id).toBe(id);
    const latest = new Date(STARTED_AT.getTime() + 7_200_000);
    await store.beginRecording(recording.sessionId, latest, HEAD);
    const newest = await store.newestSession('simulated');
    expect(newest).toMatchObject({ id: recording.sessionId, usedAt: latest.toISOString() });
    expect((await store.sessions()).map((session) => session.id)).toEqual([id, recording.sessionId]);
    await store.close();
  });

  it('remembers what was decided about the experiment last', async () => {
    const { store, recording } = await begin(temporaryFolder());
    expect(await store.ledger(recording.sessionId)).toBeNull();
    const plan = anglePlan(3);
    const ledger = { ...EMPTY_LEDGER, plan, runs: runsOf(plan) };
    await store.commit(recording.id, only({ ledger }));
    await store.commit(recording.id, only({ ledger: { ...ledger, isCovered: true } }));
    await store.commit(recording.id, only({ inputs: exampleLines(1, 50) }));
    expect(await store.ledger(recording.sessionId)).toEqual({ ...ledger, isCovered: true });
    await store.close();
  });

  it('commits in the order it was asked to, without waiting in between', async () => {
    const folder = temporaryFolder();
    const { store, recording } = await begin(folder);
    const order: number[] = [];
    const numbers = Array.from({ length: 60 }, (_, index) => index + 1);
    const commits = numbers.map(async (number) => {
      await store.commit(recording.id, only({ inputs: [markerLine(number)], trials: [exampleTrial(number)] }));
      order.push(number);
    });
    await store.close();
    await Promise.all(commits);
    expect(order).toEqual(numbers);
    const reader = openStoreReader(folder);
    expect([...reader.inputs(recording.id)]).toEqual(numbers.map(markerLine));
    expect(reader.trialRevisions(recording.id).map(({ id }) => id)).toEqual(numbers);
    reader.close();
  });

  it('is read while it writes, each reader seeing one moment', async () => {
    const folder = temporaryFolder();
    const { store, recording } = await begin(folder);
    const commit = async (number: number): Promise<void> => {
      await store.commit(recording.id, only({ inputs: [markerLine(number)], trials: [exampleTrial(number)] }));
    };
    await commit(1);
    const early = openStoreReader(folder);
    await commit(2);
    const late = openStoreReader(folder);
    await commit(3);
    for (const [reader, count] of [[early, 1], [late, 2]] as const) {
      expect([...reader.inputs(recording.id)]).toHaveLength(count);
      expect(reader.trialRevisions(recording.id)).toHaveLength(count);
      reader.close();
    }
    await store.close();
  });
});

describe('what can not be stored', () => {
  it.each([
    ['a time between microseconds', only({ inputs: [{ kind: 'tick', at_s: 1 / 3 }] })],
    ['a trial that is not a number', only({ trials: [exampleTrial(2, { end_s: NaN })] })],
    ['a plateau that is not finite', only({ plateaus: [{ ...examplePlateau(1), end_s: Infinity }] })],
  ])('ends its recording, loudly: %s', async (_, bad) => {
    const folder = temporaryFolder();
    const { store, recording } = await begin(folder);
    const states: StoreState[] = [];
    store.onState((state) => states.push(state));
    const before = only({ inputs: [markerLine(1)], trials: [exampleTrial(1)] });
    await store.commit(recording.id, before);
    await expect(store.commit(recording.id, bad)).rejects.toMatchObject({ code: 'not-storable' });
    // A hole would make everything after it underivable.
    const after = only({ inputs: [markerLine(2)] });
    await expect(store.commit(recording.id, after)).rejects.toMatchObject({ code: 'not-storable' });
    expect(states.map(({ ok }) => ok)).toEqual([false]);

    const next = await store.beginRecording(recording.sessionId, STARTED_AT, HEAD);
    expect(states.map(({ ok }) => ok)).toEqual([false, true]);
    await store.commit(next.id, after);
    await store.close();
    const reader = openStoreReader(folder);
    expect([...reader.inputs(recording.id)]).toEqual(before.inputs);
    expect([...reader.inputs(next.id)]).toEqual(after.inputs);
    reader.close();
  });

  it('stops everything when a trial is entered twice, and says so', async () => {
    const { store, recording } = await begin(temporaryFolder());
    const states: StoreState[] = [];
    store.onState((state) => states.push(state));
    await store.commit(recording.id, only({ trials: [exampleTrial(1)] }));
    const twice = store.commit(recording.id, only({ trials: [exampleTrial(1)] }));
    await expect(twice).rejects.toMatchObject({ code: 'not-saved' });
    await expect(store.trials(recording.sessionId)).rejects.toMatchObject({ code: 'not-saved' });
    expect(states.at(-1)).toMatchObject({ ok: false, message: expect.stringContaining('fault') as string });
    await store.close();
  });
});

describe('when saving falls behind', () => {
  it('takes what fits the bound and refuses the rest of the recording, loudly', async () => {
    const folder = temporaryFolder();
    const settings = { queueLimit_bytes: 3000, firstUpkeep_ms: 1e8, copyEvery_ms: 1e8 };
    const { store, recording } = await begin(folder, settings);
    const states: StoreState[] = [];
    store.onState((state) => states.push(state));
    const text = 'x'.repeat(1000);
    const commits = [1, 2, 3, 4].map((at_s) =>
      store.commit(recording.id, only({ inputs: [{ kind: 'line', at_s, text }] })),
    );
    const outcomes = await Promise.allSettled(commits);
    expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled', 'rejected', 'rejected']);
    expect(outcomes[3]).toMatchObject({ reason: { code: 'save-queue-full' } });
    expect(states).toMatchObject([{ ok: false }]);
    await store.close();
    const reader = openStoreReader(folder);
    expect([...reader.inputs(recording.id)].map(({ at_s }) => at_s)).toEqual([1, 2]);
    reader.close();
  });

  it('waits for another program that holds the data file, and goes on by itself', async () => {
    const folder = temporaryFolder();
    const { store, recording } = await begin(folder);
    const states: StoreState[] = [];
    store.onState((state) => states.push(state));
    const release = await holdElsewhere(folder);
    const commit = store.commit(recording.id, only({ inputs: [markerLine(1)], trials: [exampleTrial(1)] }));
    await until(() => states.length === 1);
    expect(states[0]?.message).toMatch(/Another program is writing/);
    release();
    expect(await commit).toHaveLength(1);
    expect(states.map(({ ok }) => ok)).toEqual([false, true]);
    await store.close();
  });
});
