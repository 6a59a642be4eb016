import type { Source, SourceListener } from './source.ts';

/** No board: people read their meters and key in what they show. Nothing comes by itself. */
export function openMeters({ port }: Pick<SourceListener, 'port'>): Source {
  port({ phase: 'meters' });
  return {
    presumeLost: () => undefined,
    ask: () => undefined,
    close: () => Promise.resolve(),
  };
}
