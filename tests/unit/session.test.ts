import { describe, expect, it } from 'vitest';
import { sessionOf } from '../../server/session.ts';
import type { SessionInfo, Store } from '../../server/store/store.ts';

const kept: SessionInfo[] = [
  { id: 'b', name: 'Blue table', startedAt: '2031-03-05T09:00:00.000Z', origin: 'board' },
  { id: 's', name: 'Trying out', startedAt: '2031-03-04T09:00:00.000Z', origin: 'simulated' },
];
const store: Pick<Store, 'sessions' | 'createSession'> = {
  sessions: () => Promise.resolve(kept),
  createSession: (name, origin, startedAt) =>
    Promise.resolve({ id: 'new', name, origin, startedAt: startedAt.toISOString() }),
};

describe('the session that is asked for', () => {
  it('is a new one of what the source gives', async () => {
    const session = await sessionOf(store, { want: 'new', name: 'Red table' }, 'board');
    expect(session).toMatchObject({ name: 'Red table', origin: 'board' });
  });

  it('is an earlier one, whose trials stay', async () => {
    expect(await sessionOf(store, { want: 'earlier', id: 'b' }, 'board')).toEqual(kept[0]);
  });

  it('is refused where it is not kept, and where simulated and measured would mix', async () => {
    const unknown = sessionOf(store, { want: 'earlier', id: 'x' }, 'board');
    await expect(unknown).rejects.toMatchObject({ code: 'session-unknown', status: 404 });
    const mixed = sessionOf(store, { want: 'earlier', id: 's' }, 'board');
    await expect(mixed).rejects.toMatchObject({
      code: 'session-refused',
      message: expect.stringContaining('"Trying out" are simulated') as string,
    });
  });
});
