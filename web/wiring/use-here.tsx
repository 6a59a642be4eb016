/** Says to the program that the rig measures with this: the ± of every trial rests on it. */
import { useState } from 'preact/hooks';
import type { BoardRequest } from '#core/live-messages.ts';
import { post } from '../feed/requests.ts';
import { sentenceOf } from '../model/told.ts';
import { useSpoken } from './speech.ts';

type Told = Omit<Extract<BoardRequest, { want: 'instrument' }>, 'want'>;

interface UseProps {
  /** What it is, by whether a zero was taken. */
  readonly told: (isZeroed: boolean) => Told;
  /** Where a zero makes a difference. */
  readonly canBeZeroed: boolean;
  readonly hint: string;
}

export function UseHere({ told, canBeZeroed, hint }: UseProps) {
  const { say: wiring, words } = useSpoken();
  const say = wiring.use;
  const [isZeroed, setZeroed] = useState(false);
  const [said, setSaid] = useState('');
  const request = told(isZeroed);
  const tell = async (): Promise<void> => {
    const refusal = await post('/api/board', { want: 'instrument', ...request });
    setSaid(refusal === null ? say.kept : sentenceOf(refusal, 'refusal', words).text);
  };
  return (
    <section class="use-here">
      <div class="settings-head">
        <h2>{say.heading}</h2>
        <button type="button" class="page-button" onClick={() => void tell()}>
          {say.tell}
        </button>
      </div>
      {canBeZeroed && (
        <label>
          <input
            type="checkbox"
            checked={isZeroed}
            onChange={(event) => setZeroed(event.currentTarget.checked)}
          />{' '}
          {say.zeroed}
        </label>
      )}
      <p class="hint">{hint}</p>
      <p role="status">{said}</p>
    </section>
  );
}
