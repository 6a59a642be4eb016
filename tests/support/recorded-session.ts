/** Data folders with sessions in them that the program itself has derived and stored. */
import { addressOf, createBook } from '#core/experiment/trial-book.ts';
import type { Trial } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { freshHead } from '#core/recording.ts';
import { createRecorder } from '../../server/recorder.ts';
import { openStore } from '../../server/store/open.ts';
import type { SessionInfo } from '../../server/store/store.ts';
import { recordInputs } from '../golden/session.ts';

/** A note that a spreadsheet would run, that CSV must quote, and that is not ASCII. */
export const NASTY_NOTE = '=HYPERLINK("x","y"), 20°\r\nünruhig';

let played: readonly Input[] | null = null;

/** Some minutes with a plan of fifteen runs, of which a few get a trial; the cable is pulled once. */
export function experimentInputs(): readonly Input[] {
  const [opened, ...rest] = recordInputs();
  if (opened === undefined) throw new Error('nothing was recorded');
  const command = { say: 'plan', plan: anglePlan(3) } as const;
  played ??= [opened, { kind: 'command', at_s: 0, command }, ...rest];
  return played;
}

/** Begins a session of simulated readings with one recording. */
export async function recordSession(
  folder: string,
  name: string,
  inputs: readonly Input[],
): Promise<SessionInfo> {
  const store = await openStore(folder);
  const session = await store.createSession(name, 'simulated', new Date('2031-03-04T09:00:00Z'));
  await store.close();
  await recordMore(folder, session, () => inputs);
  return session;
}

/** One more recording in a session, as a server that resumes it makes one. */
export async function recordMore(
  folder: string,
  session: SessionInfo,
  inputsFor: (trials: readonly Trial[]) => readonly Input[],
): Promise<void> {
  const store = await openStore(folder);
  const trials = await store.trials(session.id);
  const book = createBook(trials);
  const info = await store.beginRecording(session.id, new Date('2031-03-04T10:00:00Z'), {
    ...freshHead('simulated'),
    firstTrialId: book.nextId,
    learnt: await store.learnt(session.id),
    experiment: await store.ledger(session.id),
  });
  const nothing = (): void => undefined;
  const listener = { event: nothing, ask: nothing, committed: nothing, experiment: nothing, cutOff: nothing };
  const recorder = createRecorder(store, info, () => 0, book, listener);
  for (const input of inputsFor(trials)) recorder.take(input);
  await recorder.close();
  await store.close();
}

/** Somebody strikes the first trial and writes on the second, in a later recording. */
export function strikeAndNote(trials: readonly Trial[]): Input[] {
  const [first, second] = trials;
  if (first === undefined || second === undefined) throw new Error('there are too few trials');
  return [
    { kind: 'action', at_s: 1, action: { kind: 'strike', ...addressOf(first), reason: '-1 blade loose' } },
    { kind: 'action', at_s: 2, action: { kind: 'note', ...addressOf(second), text: NASTY_NOTE } },
  ];
}
