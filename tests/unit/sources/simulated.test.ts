import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Input } from '#core/inputs.ts';
import type { PortState } from '#core/link.ts';
import { advance, createDemoRig, DEMO_RATE_HZ } from '#core/virtual-rig/demo.ts';
import type { Instruction } from '#core/virtual-rig/led-operator.ts';
import { openSimulated } from '../../../server/sources/simulated.ts';
import type { Source } from '../../../server/sources/source.ts';

const SEED = 7;
const NO_PLAN: Instruction = {
  step: 'no-plan',
  runId: null,
  factors: {},
  nextFactors: {},
  fanShare: 1,
  runIds: [],
};
let inputs: Input[];
let states: PortState[];
let source: Source;

beforeEach(() => {
  vi.useFakeTimers();
  inputs = [];
  states = [];
});
afterEach(async () => {
  await source.close();
  expect(vi.getTimerCount()).toBe(0);
  vi.useRealTimers();
});

function open(speed = 1): void {
  const start_ms = Date.now();
  source = openSimulated({
    seed: SEED,
    speed,
    instruction: () => NO_PLAN,
    clock: () => (Date.now() - start_ms) / 1000,
    listener: {
      input: (input) => inputs.push(input),
      port: (state) => states.push(state),
      offers: () => undefined,
    },
  });
}

const pass = (seconds: number): unknown => vi.advanceTimersByTime(seconds * 1000);
/** The event loop is held up, or the laptop sleeps: time goes on and no timer runs. */
const holdUp = (seconds: number): unknown => vi.setSystemTime(Date.now() + seconds * 1000);
const lines = (from = 0): string[] =>
  inputs.slice(from).flatMap((input) => (input.kind === 'line' ? [input.text] : []));

function rigLines(until_s: number): string[] {
  const text = new TextDecoder().decode(advance(createDemoRig(SEED), until_s));
  return text.split('\r\n').slice(0, -1);
}

describe('the simulated rig', () => {
  it('says what it is, then sends what the rig sends, as time passes', () => {
    open();
    expect(states).toEqual([{ phase: 'simulated', seed: SEED }]);
    expect(inputs[0]).toMatchObject({ kind: 'opened', link: { source: 'simulated', clock: 'arrival', wholeFromStart: true } });
    pass(10);
    expect(lines()).toEqual(rigLines(10));
    expect(lines().length).toBeGreaterThan(10 * DEMO_RATE_HZ);
  });

  it('sends no line before its time', () => {
    open();
    pass(10);
    const announced = rigLines(0).length - 1;
    const samples = inputs.filter((input) => input.kind === 'line').slice(announced);
    for (const [index, { at_s }] of samples.entries()) {
      expect(at_s).toBeGreaterThanOrEqual(index / DEMO_RATE_HZ - 1e-9);
      expect(at_s).toBeLessThan(index / DEMO_RATE_HZ + 0.0401);
    }
  });

  it('runs faster on demand, on its own time', () => {
    open(10);
    expect(inputs[0]).toMatchObject({ kind: 'opened', link: { clock: 'stream' } });
    pass(10);
    expect(lines().length).toBe(rigLines(100).length);
  });

  it('catches up in small steps after the program was held up', () => {
    open();
    pass(2);
    const before = inputs.length;
    holdUp(3);
    pass(0.02);
    expect(lines(before).length).toBeLessThan(0.3 * DEMO_RATE_HZ);
    pass(1);
    expect(lines()).toEqual(rigLines(6.02));
  });

  it('is switched on anew after the laptop slept', () => {
    open();
    pass(2);
    const before = inputs.length;
    holdUp(3600);
    pass(2);
    expect(inputs.slice(before, before + 2)).toMatchObject([{ kind: 'closed', reason: 'unplugged' }, { kind: 'opened' }]);
    expect(lines(before)).toEqual(rigLines(1.98));
  });

  it('ends when asked, with the reason', async () => {
    open();
    pass(1);
    await source.close('replaced');
    expect(inputs.at(-1)).toMatchObject({ kind: 'closed', reason: 'replaced' });
    const count = inputs.length;
    pass(1);
    expect(inputs.length).toBe(count);
  });
});
