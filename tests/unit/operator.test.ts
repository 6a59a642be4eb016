import { describe, expect, it } from 'vitest';
import type { Status } from '#core/live-messages.ts';
import { createOperator, type OperatorParts } from '../../server/operator.ts';

function unused(): never {
  throw new Error('nothing else may be asked');
}

describe('while nothing can be saved', () => {
  const store = { ok: false, message: 'The disk is full: free some space.' };
  const parts: OperatorParts = {
    scene: unused,
    recorder: unused,
    status: () => ({ store }) as Status,
    experiment: unused,
    attached: unused,
    use: unused,
    sessions: unused,
    useWhatWas: unused,
    dataFolder: '',
    files: { save: unused, takeIn: unused },
    revisions: unused,
    planOf: unused,
    goOnIn: unused,
    settingsOf: unused,
    keepSettings: unused,
  };

  it('an action is refused at once with the reason, and not taken into the recording', async () => {
    const act = createOperator(parts).act({ kind: 'restore', trialId: 1 });
    await expect(act).rejects.toMatchObject({
      code: 'saving-stopped',
      status: 503,
      message: expect.stringContaining('The disk is full: free some space.') as string,
    });
  });

  it('the source stays, so that its readings go on', async () => {
    const change = createOperator(parts).useLink({ use: 'simulated' });
    await expect(change).rejects.toMatchObject({ code: 'saving-stopped' });
  });
});
