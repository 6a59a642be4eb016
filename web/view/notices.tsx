/** Lines above the band for what needs a person: saving stopped, a board offered, a refusal. */
import type { ComponentChildren } from 'preact';
import { explanationOf } from '../model/words.ts';
import type { PageState } from './page-state.ts';

export function Notices({ page }: { page: PageState }) {
  const { bench } = page;
  const words = page.words.value;
  const say = words.top.notice;
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
          <b>{words.page.storeStopped}</b>{' '}
          {status.store.message === null ? say.nothingKept : <English>{status.store.message}</English>}
        </Notice>
      )}
      {bench.trouble.value !== null && (
        <Notice kind="alarm">
          <English>{bench.trouble.value}</English>
          <button type="button" onClick={() => (bench.trouble.value = null)}>
            {say.understood}
          </button>
        </Notice>
      )}
      {offered !== undefined && (
        <Notice kind="offer">
          {say.offered(offered.name)}
          <button type="button" class="strong" onClick={() => page.useBoard(offered.id)}>
            {say.useIt} <kbd aria-hidden="true">B</kbd>
          </button>
        </Notice>
      )}
      {notice !== undefined && (
        <Notice kind="note">
          <English>{notice.message}</English>
          <button type="button" onClick={() => dismiss(page, notice.message)}>
            {say.understood}
          </button>
        </Notice>
      )}
    </div>
  );
}

/** What the program says is English, whatever the page speaks. */
function English({ children }: { children: ComponentChildren }) {
  return <span lang="en">{children}</span>;
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
