import { takeMessage } from '../model/bench.ts';
import type { WatchState } from '../view/watch-state.ts';
import { connectFeed, STALE_AFTER_MS } from './connection.ts';

/** What comes from the program, and how long nothing has come. */
export function listenToFeed({ bench, words }: Pick<WatchState, 'bench' | 'words'>): void {
  connectFeed({
    message: (message) => {
      bench.news.value = 'live';
      takeMessage(bench, message);
    },
    unreadable: (problem) => {
      bench.trouble.value = { code: null, message: words.value.page.noFit(problem) };
    },
    quiet: (quiet_ms) => {
      bench.quiet_s.value = Math.floor(quiet_ms / 1000);
      const isStale = quiet_ms > STALE_AFTER_MS && bench.news.value === 'live';
      if (isStale) bench.news.value = 'no-news';
    },
  });
}
