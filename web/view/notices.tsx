/** Lines above the band for what needs a person: saving stopped, a board offered, a refusal. */
import type { ComponentChildren } from 'preact';
import { explanationOf } from '../model/words.ts';
import type { PageState } from './page-state.ts';

export function Notices({ page }: { page: PageState }) {
  const { bench } = page;
  const status = bench.status.value;
  const offered = status?.offers[0];
  // What the band says already is not said twice.
  const inBand = explanationOf(status);
  const notice = status?.notices.findLast(
    ({ message }) => message !== inBand && !page.dismissed.value.has(message),
  );
  return (
    <div class="notices">
      {status !== null && !status.store.ok && (
        <Notice kind="alarm">
          <b>Saving has stopped.</b>{' '}
          {status.store.message ?? 'Nothing new is kept until it works again.'}
        </Notice>
      )}
      {bench.trouble.value !== null && (
        <Notice kind="alarm">
          {bench.trouble.value}
          <button type="button" onClick={() => (bench.trouble.value = null)}>
            Understood
          </button>
        </Notice>
      )}
      {offered !== undefined && (
        <Notice kind="offer">
          A board is plugged in: {offered.name}. Use it?
          <button type="button" class="strong" onClick={() => page.useBoard(offered.id)}>
            Use it <kbd aria-hidden="true">B</kbd>
          </button>
        </Notice>
      )}
      {notice !== undefined && (
        <Notice kind="note">
          {notice.message}
          <button type="button" onClick={() => dismiss(page, notice.message)}>
            Understood
          </button>
        </Notice>
      )}
    </div>
  );
}

function dismiss({ dismissed }: PageState, message: string): void {
  dismissed.value = new Set([...dismissed.value, message]);
}

function Notice({
  kind,
  children,
}: {
  kind: 'alarm' | 'offer' | 'note';
  children: ComponentChildren;
}) {
  return <p class={`notice ${kind}`}>{children}</p>;
}
