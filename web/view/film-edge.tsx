import type { Status } from '#core/live-messages.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { WatchState } from './watch-state.ts';

/** A strip along the top of every page: nothing here was measured, or not now. */
export function FilmEdge({ page }: { page: Pick<WatchState, 'bench' | 'words'> }) {
  const { status } = page.bench;
  const edge = status.value === null ? null : edgeOf(status.value, page.words.value.page);
  if (edge === null) return null;
  return (
    <aside class="film-edge" aria-label={edge.spoken}>
      <p class="sr">{edge.spoken}</p>
      <p aria-hidden="true">{edge.written.repeat(24)}</p>
    </aside>
  );
}

function edgeOf(
  { simulated, playing }: Status,
  say: Catalogue['page'],
): { written: string; spoken: string } | null {
  if (playing !== null) {
    return simulated
      ? { written: `${say.replaySimulated} · `, spoken: say.replaySimulatedSpoken }
      : { written: `${say.replay} · `, spoken: say.replaySpoken };
  }
  return simulated ? { written: say.simulated, spoken: say.simulatedSpoken } : null;
}
