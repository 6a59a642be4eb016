import { describe, expect, it } from 'vitest';
import type { Status } from '#core/live-messages.ts';
import { createOperator, type OperatorParts } from '../../server/operator.ts';

function unused(): never {
  throw new Error('nothing else may be asked');
}

describe('an action while nothing can be saved', () => {
  const store = { ok: false, message: 'The disk is full: free some space.' };
  const parts: OperatorParts = {
    scene: unused,
    recorder: unused,
    status: () => ({ store }) as Status,
    attached: unused,
    use: unused,
  };

  it('is refused at once with the reason, and not taken into the recording', async () => {
    const act = createOperator(parts).act({ kind: 'restore', trialId: 1 });
    await expect(act).rejects.toMatchObject({
      code: 'saving-stopped',
      status: 503,
      message: expect.stringContaining('The disk is full: free some space.') as string,
    });
  });
});
