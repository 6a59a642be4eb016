/** Readings of one's own are never mixed with a simulated rig's, nor with a file's. */
import type { Status } from '#core/live-messages.ts';
import { actionFor } from '../view/actions.ts';
import type { PageState } from '../view/page-state.ts';
import { Key } from '../view/run-line.tsx';

/** Whether what runs now may hold them. */
export function isOwnBench(status: Status | null): boolean {
  const phase = status?.port.phase;
  return status !== null && !status.simulated && phase !== 'replaying' && phase !== 'ended';
}

function closeSheets({ operator }: PageState): void {
  operator.keying.isShown.value = false;
  operator.bringingIn.isShown.value = false;
}

/** Said in place of a form, with the way out. */
export function Apart({ page }: { page: PageState }) {
  const { apart, begin } = page.words.value.bench.byHand.keyed;
  return (
    <p class="apart">
      {apart}{' '}
      <button type="button" class="strong" onClick={() => page.useMeters()}>
        {begin}
      </button>{' '}
      <button type="button" class="underlined" onClick={() => closeSheets(page)}>
        {page.words.value.bench.close}
      </button>
    </p>
  );
}

/** From the form to the table and back: what a class has on paper may be in a spreadsheet too. */
export function OtherWay({ page, to }: { page: PageState; to: 'key-in' | 'bring-in' }) {
  const { keyed, imported } = page.words.value.bench.byHand;
  const open = actionFor(page, to);
  return (
    <button type="button" class="underlined" data-action={to} onClick={() => open?.()}>
      {to === 'key-in' ? keyed.open : imported.open}
      {page.settings.lettersOn.value && <Key>{to === 'key-in' ? 'K' : 'T'}</Key>}
    </button>
  );
}
