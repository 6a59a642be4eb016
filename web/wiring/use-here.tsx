/** Says to the program that the rig measures with this: the ± of every trial rests on it. */
import { useState } from 'preact/hooks';
import type { BoardRequest } from '#core/live-messages.ts';
import { post } from '../feed/requests.ts';

type Told = Omit<Extract<BoardRequest, { want: 'instrument' }>, 'want'>;

interface UseProps {
  /** What it is, by whether a zero was taken. */
  readonly told: (isZeroed: boolean) => Told;
  /** Where a zero makes a difference. */
  readonly canBeZeroed: boolean;
  readonly hint: string;
}

export function UseHere({ told, canBeZeroed, hint }: UseProps) {
  const [isZeroed, setZeroed] = useState(false);
  const [said, setSaid] = useState('');
  const request = told(isZeroed);
  const tell = async (): Promise<void> => {
    const refusal = await post('/api/board', { want: 'instrument', ...request });
    setSaid(refusal === null ? KEPT : refusal.message);
  };
  return (
    <section class="use-here">
      <div class="settings-head">
        <h2>For the ± of every trial</h2>
        <button type="button" class="page-button" onClick={() => void tell()}>
          My rig has this
        </button>
      </div>
      {canBeZeroed && (
        <label>
          <input
            type="checkbox"
            checked={isZeroed}
            onChange={(event) => setZeroed(event.currentTarget.checked)}
          />{' '}
          A zero was taken with the fan off
        </label>
      )}
      <p class="hint">{hint}</p>
      <p role="status">{said}</p>
    </section>
  );
}

const KEPT = 'Kept for this board. It counts for the trials of this session, those before it too.';

export const PARTS_HINT =
  'What a board says of its own calibration counts more: with the lines for the sketch it says so by itself.';
export const COMPARED_HINT =
  'It counts once gain and offset are in the sketch. What a board says of its own calibration counts more.';
