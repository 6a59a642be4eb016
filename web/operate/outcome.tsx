import { sentenceOf } from '../model/told.ts';
import { Program } from '../view/program.tsx';
import type { PhoneState } from './phone-state.ts';

/** What came of what was done last, in the page's language where there are words for it. */
export function Outcome({ page }: { page: PhoneState }) {
  const { outcome } = page.pass;
  const say = page.words.value.network;
  const now = outcome.value;
  if (now === null || now === 'done') {
    return <p role="status">{now === null ? '' : say.phone.done}</p>;
  }
  return (
    <p role="status" class="refused">
      <Program sentence={sentenceOf(now, 'refusal', page.words.value)} />
    </p>
  );
}
