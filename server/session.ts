import { basename } from 'node:path';
import type { SessionRequest } from '#core/live-messages.ts';
import { HttpError } from './routes/errors.ts';
import type { ChosenSource } from './source-choice.ts';
import type { Origin, SessionInfo, Store } from './store/store.ts';

/** A session last taken up longer ago is another lesson's: a new one is begun. */
const SAME_LESSON_H = 12;

/** What kind of data a source gives; sessions never mix them. */
export function originOf(choice: ChosenSource): Origin {
  if (choice.kind === 'simulated') return 'simulated';
  return choice.kind === 'replay' || choice.kind === 'session' ? 'imported' : 'board';
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
  if (newest !== null && hoursBetween(new Date(newest.usedAt), now) < SAME_LESSON_H) {
    return newest;
  }
  return store.createSession(nameOf(choice, now), origin, now);
}

/**
 * The session that is asked for: a new one, or one that is kept.
 * @throws HttpError `session-unknown`; `session-refused` for one whose data come from elsewhere
 */
export async function sessionOf(
  store: Pick<Store, 'sessions' | 'createSession'>,
  request: SessionRequest,
  origin: Origin,
): Promise<SessionInfo> {
  if (request.want === 'new') return store.createSession(request.name, origin, new Date());
  const session = (await store.sessions()).find(({ id }) => id === request.id);
  if (session === undefined) {
    throw new HttpError('session-unknown', 'That session is not in this data folder.');
  }
  if (session.origin === origin) return session;
  throw new HttpError(
    'session-refused',
    `The trials of "${session.name}" are ${SAID[session.origin]}; what comes now is ${SAID[origin]}, and the two never go into one session. Choose the source first.`,
    [session.name, session.origin, origin],
  );
}

const SAID: Readonly<Record<Origin, string>> = {
  board: 'from your own bench',
  simulated: 'simulated',
  imported: 'from a file',
};

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
