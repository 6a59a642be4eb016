/** Sessions: one of its own for the next group, an earlier one taken up, played, saved or taken in. */
import type { PageState } from './page-state.ts';
import { isWanted, type Session } from './sessions.ts';
import { Unfolded } from './unfolded.tsx';

export function SessionsPanel({ page }: { page: PageState }) {
  const { sessions, words } = page;
  const say = words.value.bench.sessions;
  if (!sessions.isShown.value) return null;
  const found = sessions.kept.value?.filter((session) =>
    isWanted(sessions.wanted.value, textsOf(session, page)),
  );
  const goOn = (request: Parameters<PageState['goOnIn']>[0]): void => {
    sessions.isShown.value = false;
    sessions.name.value = '';
    page.goOnIn(request);
  };
  return (
    <Unfolded class="sessions-panel" id="sessions" label={say.sessions}>
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
      <div class="sessions-line">
        <label>
          {say.find}{' '}
          <input
            type="search"
            name="wanted"
            value={sessions.wanted.value}
            onInput={(event) => (sessions.wanted.value = event.currentTarget.value)}
          />
        </label>
        <TakeIn page={page} />
        {page.bench.status.value?.playing && (
          <button type="button" class="underlined" onClick={() => page.play(null)}>
            {say.endReplay}
          </button>
        )}
      </div>
      {sessions.taken.value && (
        <p role="status">{say.taken[sessions.taken.value.outcome](sessions.taken.value.session.name)}</p>
      )}
      <ul>
        {found?.map((session) => (
          <Kept key={session.id} page={page} session={session} goOn={goOn} />
        ))}
      </ul>
      {found?.length === 0 && sessions.wanted.value !== '' && <p role="status">{say.noneFound}</p>}
    </Unfolded>
  );
}

function TakeIn({ page }: { page: PageState }) {
  return (
    <label class="file-field">
      {page.words.value.bench.sessions.takeIn}{' '}
      <input
        type="file"
        name="session-file"
        accept=".zip"
        onChange={(event) => {
          const [file] = event.currentTarget.files ?? [];
          if (file !== undefined) page.takeIn(file);
          event.currentTarget.value = '';
        }}
      />
    </label>
  );
}

/** Day, source and question, as they stand in the list. */
function textsOf({ name, startedAt, origin, question }: Session, page: PageState): string[] {
  const { language, bench } = page.words.value;
  const day = new Date(startedAt).toLocaleDateString(language, { dateStyle: 'medium' });
  return [name, day, bench.sessions.origin[origin], ...(question === null ? [] : [question])];
}

/** As it was, and two that are quick to watch; null: as fast as it will go. */
const SPEEDS = [1, 4, 16, null] as const;

interface KeptProps {
  readonly page: PageState;
  readonly session: Session;
  goOn(request: Parameters<PageState['goOnIn']>[0]): void;
}

function Kept({ page, session, goOn }: KeptProps) {
  const say = page.words.value.bench.sessions;
  const { id, name } = session;
  const { status } = page.bench;
  const isNow = status.value?.session.id === id && status.value.playing === null;
  const isSaving = page.sessions.savingId.value === id;
  return (
    <li data-session={id}>
      <span>{name}</span>{' '}
      <span class="soft">{textsOf(session, page).slice(1).join(' · ')}</span>{' '}
      {isNow ? (
        <b>{say.now}</b>
      ) : (
        <button type="button" class="underlined" onClick={() => goOn({ want: 'earlier', id })}>
          {say.goOn}
        </button>
      )}{' '}
      <button type="button" class="underlined" disabled={isSaving} onClick={() => page.save(id)}>
        {isSaving ? say.saving : say.save}
      </button>{' '}
      {session.question !== null && (
        <button
          type="button"
          class="underlined"
          data-action="take-plan"
          onClick={() => void page.takePlan(id)}
        >
          {say.takePlan}
        </button>
      )}{' '}
      <span class="speeds" role="group" aria-label={`${say.play}: ${name}`}>
        {say.play}{' '}
        {SPEEDS.map((speed) => (
          <button
            key={speed}
            type="button"
            class="underlined"
            onClick={() => page.play({ id, speed })}
          >
            {say.speed(speed)}
          </button>
        ))}
      </span>
    </li>
  );
}
