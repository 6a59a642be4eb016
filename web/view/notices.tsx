/** Lines on top of the band for what needs a person: saving stopped, a board offered, a refusal. */
import type { ComponentChildren } from 'preact';
import { sentenceOf, storeSentence } from '../model/told.ts';
import { explanationOf } from '../model/words.ts';
import type { PageState } from './page-state.ts';
import { Program } from './program.tsx';

export function Notices({ page }: { page: PageState }) {
  const { bench } = page;
  const words = page.words.value;
  const say = words.top.notice;
  const status = bench.status.value;
  const offered = status?.offers[0];
  const hindrance = status === null ? null : storeSentence(status, words);
  // What the band says already is not said twice.
  const inBand = explanationOf(status);
  const notice = status?.notices.findLast(
    ({ message }) => message !== inBand?.message && !page.dismissed.value.has(message),
  );
  return (
    <div class="notices">
      {status !== null && !status.store.ok && (
        <Notice kind="alarm">
          <b>{words.page.storeStopped}</b>{' '}
          {hindrance === null ? say.nothingKept : <Program sentence={hindrance} />}
        </Notice>
      )}
      {bench.trouble.value !== null && (
        <Notice kind="alarm">
          <Program sentence={sentenceOf(bench.trouble.value, 'refusal', words)} />
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
          <Program sentence={sentenceOf(notice, 'notice', words)} />
          <button type="button" onClick={() => dismiss(page, notice.message)}>
            {say.understood}
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
