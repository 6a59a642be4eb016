import type { WatchState } from './watch-state.ts';

/** A strip along the top of every page: nothing here was measured. */
export function FilmEdge({ page }: { page: WatchState }) {
  if (page.bench.status.value?.simulated !== true) return null;
  const { simulated, simulatedSpoken } = page.words.value.page;
  return (
    <aside class="film-edge" aria-label={simulatedSpoken}>
      <p class="sr">{simulatedSpoken}</p>
      <p aria-hidden="true">{simulated.repeat(24)}</p>
    </aside>
  );
}
