import { describe, expect, it } from 'vitest';
import type { Command } from '#core/experiment/command.ts';
import { meantFor, type Seen } from '#core/experiment/meant-for.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';

const seen = (experiment: Partial<ExperimentView>, newestTrialId: number | null = 3): Seen => ({
  sessionId: 's1',
  experiment: { ...NO_EXPERIMENT, ...experiment },
  newestTrialId,
});

const CYCLE = { kind: 'unsettled', cause: 'cycle' } as const;

describe('what a command was meant for', () => {
  it.each<[Command, Seen, Seen]>([
    [{ say: 'log-now' }, seen({}, 3), seen({}, 4)],
    [{ say: 'log-now' }, seen({ runId: 'r1' }), seen({ runId: 'r2' })],
    [{ say: 'is-set' }, seen({ step: 'set-blades' }), seen({ step: 'start-fan' })],
    [{ say: 'average' }, seen({ question: CYCLE, runId: 'r1' }), seen({ runId: 'r1' })],
    [{ say: 'leave-it' }, seen({ question: { kind: 'unassigned', trialId: 3 } }), seen({ question: { kind: 'unassigned', trialId: 4 } })],
    [{ say: 'undo' }, seen({ undoes: { what: 'skip', trialId: null, place: 2 } }), seen({ undoes: { what: 'skip', trialId: null, place: 1 } })],
    [{ say: 'cover' }, seen({}), { ...seen({}), sessionId: 's2' }],
  ])('differs where that has changed: %o', (command, before, after) => {
    expect(meantFor(before, command)).not.toBe(meantFor(after, command));
    expect(meantFor(before, command)).toBe(meantFor(structuredClone(before), command));
  });

  it('is the same where something else has changed', () => {
    const before = seen({ step: 'start-fan', runId: 'r1', question: null });
    const after = seen({ step: 'settling', runId: 'r1', question: CYCLE });
    expect(meantFor(before, { say: 'log-now' })).toBe(meantFor(after, { say: 'log-now' }));
    expect(meantFor(before, { say: 'wait' })).toBe(meantFor(after, { say: 'wait' }));
  });
});
