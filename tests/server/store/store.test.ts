import { describe, expect, it } from 'vitest';
import { openStore } from '../../../server/store/open.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { exampleLines, examplePlateau, exampleTrial, HEAD, STARTED_AT, temporaryFolder } from './examples.ts';

describe('the store', () => {
  it('keeps what is committed, across a restart', async () => {
    const folder = temporaryFolder();
    const store = await openStore(folder);
    const session = await store.createSession('Morning group', true, STARTED_AT);
    const recording = await store.beginRecording(session.id, STARTED_AT, HEAD);
    const inputs = exampleLines(500, 50);
    const [trial] = await store.commit(recording.id, { inputs, trials: [exampleTrial(1)], plateaus: [examplePlateau(1)] });
    expect(trial?.recordedAt).toBe('2031-03-04T09:00:25.130Z');
    await store.close();

    const again = await openStore(folder);
    expect(await again.newestSession(true)).toEqual(session);
    expect(await again.newestSession(false)).toBeNull();
    expect(await again.trials(session.id)).toEqual([trial]);
    const reader = openStoreReader(folder);
    expect([...reader.inputs(recording.id)]).toEqual(inputs);
    reader.close();
    await again.close();
  });
});
