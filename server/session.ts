import { basename } from 'node:path';
import type { ChosenSource } from './source-choice.ts';
import type { Origin, SessionInfo, Store } from './store/store.ts';

/** A session begun longer ago is another lesson: a new one is begun. */
const SAME_LESSON_H = 12;

/** What kind of data a source gives; sessions never mix them. */
export function originOf(choice: ChosenSource): Origin {
  if (choice.kind === 'simulated') return 'simulated';
  return choice.kind === 'replay' ? 'imported' : 'board';
}

/**
 * The session that a run belongs to: the newest one of the same origin when it is of this lesson,
 * so that a restart loses nothing; a file being replayed always gets a session of its own.
 */
export async function resumeOrCreateSession(
  store: Store,
  choice: ChosenSource,
): Promise<SessionInfo> {
  const origin = originOf(choice);
  const now = new Date();
  const newest = choice.kind === 'replay' ? null : await store.newestSession(origin);
  if (newest !== null && hoursBetween(new Date(newest.startedAt), now) < SAME_LESSON_H) {
    return newest;
  }
  return store.createSession(nameOf(choice, now), origin, now);
}

function hoursBetween(earlier: Date, later: Date): number {
  return (later.getTime() - earlier.getTime()) / 3_600_000;
}

function nameOf(choice: ChosenSource, now: Date): string {
  if (choice.kind === 'replay') return `Replay of ${basename(choice.file)}`;
  const pad = (value: number): string => String(value).padStart(2, '0');
  const day = `${now.getFullYear()}-${pad(now.getMonth() + 1)}-${pad(now.getDate())}`;
  const when = `${day} ${pad(now.getHours())}:${pad(now.getMinutes())}`;
  return choice.kind === 'simulated' ? `Simulated rig, ${when}` : `Bench, ${when}`;
}
