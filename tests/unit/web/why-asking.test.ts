import { describe, expect, it } from 'vitest';
import { createBench } from '../../../web/model/bench.ts';
import { askWhy, type WhyReply, type WhyWorker } from '../../../web/why/asking.ts';
import { statusOf } from '../../support/status.ts';
import { trialOf } from './fixtures.ts';

/** Workers that answer when told to. */
function bay() {
  const workers: { asked: unknown[]; isEnded: boolean; say: (type: string, event: object) => void }[] = [];
  const open = (): WhyWorker => {
    const heard = new Map<string, (event: never) => void>();
    const worker = {
      asked: [] as unknown[],
      isEnded: false,
      say: (type: string, event: object) => heard.get(type)?.(event as never),
    };
    workers.push(worker);
    return {
      postMessage: (question: unknown) => void worker.asked.push(question),
      addEventListener: ((type: string, listener: (event: never) => void) => heard.set(type, listener)) as never,
      terminate: () => (worker.isEnded = true),
    };
  };
  const reply = (place: number, data: WhyReply): void => workers[place]!.say('message', { data });
  return { workers, open, reply };
}

function asked() {
  const bench = createBench();
  bench.status.value = statusOf();
  const { workers, open, reply } = bay();
  return { bench, workers, reply, ...askWhy(bench, open) };
}

const FOUND = { whys: [{ kind: 'none', why: 'no plan' }] } as const;

describe('askWhy', () => {
  it('works it out, and anew when a trial has come meanwhile, one question at a time', () => {
    const { bench, workers, reply, reasons } = asked();
    expect(reasons.value).toEqual({ kind: 'working' });
    bench.trials.value = [trialOf(1, 240)];
    expect(workers[0]!.asked).toHaveLength(1);
    reply(0, FOUND);
    expect(reasons.value).toEqual({ kind: 'found', ...FOUND });
    expect(workers).toHaveLength(1);
    expect(workers[0]!.asked).toHaveLength(2);
  });

  it('says that it could not be loaded, and tries again with another worker', () => {
    const { workers, reply, reasons, again } = asked();
    workers[0]!.say('error', {});
    expect(reasons.value).toEqual({ kind: 'failed', how: 'not-loaded', detail: '' });
    expect(workers[0]!.isEnded).toBe(true);
    again();
    expect(reasons.value).toEqual({ kind: 'working' });
    reply(1, FOUND);
    expect(reasons.value.kind).toBe('found');
  });

  it('says what it stumbled over, until something has changed', () => {
    const { bench, workers, reply, reasons } = asked();
    reply(0, { fault: 'level 3 is missing' });
    expect(reasons.value).toEqual({ kind: 'failed', how: 'stumbled', detail: 'level 3 is missing' });
    expect(workers).toHaveLength(1);
    bench.trials.value = [trialOf(1, 240)];
    expect(reasons.value).toEqual({ kind: 'working' });
    reply(0, FOUND);
    expect(reasons.value, 'the first worker is gone').toEqual({ kind: 'working' });
    reply(1, FOUND);
    expect(reasons.value.kind).toBe('found');
  });

  it('says so where a browser has no workers at all', () => {
    const bench = createBench();
    bench.status.value = statusOf();
    const { reasons } = askWhy(bench, () => {
      throw new Error('Workers are switched off.');
    });
    expect(reasons.value).toEqual({ kind: 'failed', how: 'not-loaded', detail: 'Workers are switched off.' });
  });
});
