/**
 * A program that commits as fast as it can and prints the number of each trial once the store has
 * acknowledged it, until it is killed. Each trial comes with a marker in the input.
 */
import { writeSync } from 'node:fs';
import { openStore } from '../../../server/store/open.ts';
import { exampleLines, exampleTrial, HEAD, markerLine, STARTED_AT } from './examples.ts';

const IN_FLIGHT = 4;

const store = await openStore(process.argv[2] ?? '');
const session = (await store.newestSession('simulated')) ?? (await store.createSession('Killed', 'simulated', STARTED_AT));
const stored = await store.trials(session.id);
let number = stored.length;
const recording = await store.beginRecording(session.id, STARTED_AT, { ...HEAD, firstTrialId: number + 1 });
await Promise.all(Array.from({ length: IN_FLIGHT }, commitOn));

async function commitOn(): Promise<never> {
  for (;;) {
    number += 1;
    const inputs = [markerLine(number), ...exampleLines(20, 50, number)];
    const trial = exampleTrial(number, { recordingId: recording.id });
    const [committed] = await store.commit(recording.id, { inputs, trials: [trial], plateaus: [] });
    // At once and whole: what is printed is what someone was told.
    writeSync(1, `${committed?.id} ${committed?.checksum}\n`);
  }
}
