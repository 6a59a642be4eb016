/** An experiment that is played: what the rig does depends on the seed and on what was told. */
import { setTimeout as pause } from 'node:timers/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { instructionOf } from '#core/experiment/conductor/instruction.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import type { Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { createDemoRig, type DemoRig } from '#core/virtual-rig/demo.ts';
import type { Instruction } from '#core/virtual-rig/led-operator.ts';
import { playedTime } from '../../../server/run-time.ts';
import { openPlayed } from '../../../server/sources/played.ts';

const SEED = 4;

interface Setting {
  readonly speed?: number | null;
  /** How long it takes to store and tell what came of the newest slice, ms; null: no time. */
  readonly delay_ms?: (slice: number) => number | null;
}

function open({ speed = null, delay_ms = () => null }: Setting) {
  const inputs: Input[] = [];
  const time = playedTime();
  let state = begin(freshHead('simulated'), 1);
  let rig: DemoRig | null = null;
  let slice = 0;
  let isToldOfLast = true;
  const take = (input: Input): void => {
    // Nothing may come while what came before is still being stored.
    expect(isToldOfLast).toBe(true);
    inputs.push(input);
    state = step(state, input).state;
  };
  const instruction = (): Instruction => {
    const told = instructionOf(state.conductor, state.book.trials);
    // One run is enough here.
    return state.book.trials.length > 0 ? { ...told, step: 'finished' } : told;
  };
  const source = openPlayed({
    seed: SEED,
    listener: { input: take, port: () => undefined, offers: () => undefined },
    instruction,
    untold: () => {
      const wait_ms = delay_ms((slice += 1));
      if (wait_ms === null) return null;
      isToldOfLast = false;
      return pause(wait_ms).then(() => void (isToldOfLast = true));
    },
    demonstration: { createRig: (seed) => (rig = createDemoRig(seed)), speed, time },
  });
  return {
    inputs,
    time,
    source,
    rig: () => rig!,
    plan: () => take({ kind: 'command', at_s: time.clock(), command: { say: 'plan', plan: anglePlan(SEED) } }),
    done: async () => {
      while (instruction().step !== 'finished') await pause(5);
    },
  };
}

/** The first run, from its plan to its trial. */
async function playOne(setting: Setting): Promise<readonly Input[]> {
  const played = open(setting);
  await pause(30);
  played.plan();
  await played.done();
  await pause(30);
  await played.source.close();
  return played.inputs;
}

describe('an experiment that is played', () => {
  let quick: readonly Input[];
  beforeAll(async () => {
    quick = await playOne({});
  });

  it('is the same whether what comes of it is stored at once or now and then late', async () => {
    expect(quick.filter(({ kind }) => kind === 'line').length).toBeGreaterThan(1000);
    expect(quick.at(-1)).toMatchObject({ kind: 'closed', reason: 'ended' });
    const late = await playOne({ delay_ms: (slice) => (slice % 61 === 0 ? slice % 7 : null) });
    expect(late).toEqual(quick);
  });

  it('stands still before there is a plan', async () => {
    const { source, time, inputs, rig } = open({});
    await pause(50);
    expect(time.clock()).toBe(0);
    expect(rig().rig.readingCount).toBe(1);
    const count = inputs.length;
    await source.close('replaced');
    expect(inputs.slice(count)).toEqual([{ kind: 'closed', at_s: 0, reason: 'replaced' }]);
  });

  it('arrives when it was measured: its time is the recording’s', () => {
    const samples = quick.flatMap((input) => {
      const sample = input.kind === 'line' ? /^\$s,\d+,(\d+),/.exec(input.text) : null;
      return sample === null ? [] : [[input.at_s, Number(sample[1]) / 1e6]];
    });
    expect(samples.length).toBeGreaterThan(1000);
    for (const [at_s, measured_s] of samples) expect(at_s).toBeCloseTo(measured_s!, 9);
  });

  it('can be watched: no faster than it is told to be', async () => {
    const from_ms = performance.now();
    const { source, time, plan } = open({ speed: 4 });
    plan();
    await pause(200);
    const [rig_s, world_s] = [time.clock(), (performance.now() - from_ms) / 1000];
    expect(rig_s).toBeGreaterThan(0);
    expect(rig_s).toBeLessThanOrEqual(4 * world_s);
    await source.close();
  });
});
