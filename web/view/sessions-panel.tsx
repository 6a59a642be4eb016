/** Beginning a session of its own for the next group, and taking up an earlier one. */
import type { SessionsResponse } from '#core/live-messages.ts';
import type { PageState } from './page-state.ts';

type Session = SessionsResponse['sessions'][number];

export function SessionsPanel({ page }: { page: PageState }) {
  const { sessions, words } = page;
  const say = words.value.bench.sessions;
  if (!sessions.isShown.value) return null;
  const goOn = (request: Parameters<PageState['goOnIn']>[0]): void => {
    sessions.isShown.value = false;
    sessions.name.value = '';
    page.goOnIn(request);
  };
  return (
    <section class="sessions-panel" id="sessions" aria-label={say.sessions}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const name = sessions.name.value.trim();
          if (name !== '') goOn({ want: 'new', name });
        }}
      >
        <label>
          {say.name}{' '}
          <input
            type="text"
            name="session"
            maxLength={60}
            value={sessions.name.value}
            onInput={(event) => (sessions.name.value = event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="underlined">
          {say.begin}
        </button>
      </form>
      <ul>
        {sessions.kept.value?.map((session) => (
          <Kept key={session.id} page={page} session={session} goOn={goOn} />
        ))}
      </ul>
    </section>
  );
}

interface KeptProps {
  readonly page: PageState;
  readonly session: Session;
  goOn(request: Parameters<PageState['goOnIn']>[0]): void;
}

function Kept({ page, session, goOn }: KeptProps) {
  const say = page.words.value.bench.sessions;
  const { id, name, startedAt, origin } = session;
  const isNow = page.bench.status.value?.session.id === id;
  const day = new Date(startedAt).toLocaleDateString(page.words.value.language);
  return (
    <li data-session={id}>
      <span>{name}</span> <span class="soft">{`${day} · ${say.origin[origin]}`}</span>{' '}
      {isNow ? (
        <b>{say.now}</b>
      ) : (
        <button type="button" class="underlined" onClick={() => goOn({ want: 'earlier', id })}>
          {say.goOn}
        </button>
      )}
    </li>
  );
}
