import type { Request } from '#protocol/frame.ts';
import type { Board } from '#core/link.ts';
import type { Instruction } from '#core/virtual-rig/led-operator.ts';
import { advance, answer, createDemoRig, type DemoRig } from '#core/virtual-rig/demo.ts';
import { createLineReader, type LineReader } from './lines.ts';
import type { RecordingClock, Source, SourceListener } from './source.ts';

const TURN_MS = 20;
/** The most that is made up for in one turn after the program was held up. */
const CATCH_UP_S = 0.25;
/** The operator hears what to do so often in a second of the rig's; often against any deed. */
const SLICES_PER_S = 50;
/** What is shown as pulled out when the cable comes out. */
const SIMULATED_BOARD: Board = {
  id: 'simulated',
  path: '',
  name: 'Simulated rig',
  vendorId: null,
  productId: null,
  serialNumber: null,
  location: null,
};
/** Held up for longer, the laptop has slept: the rig is switched on anew, as a board would be. */
const ASLEEP_S = 5;

/** For whoever plays an experiment on the rig, and judges the tool by it. */
export interface Demonstration {
  /** How the rig is made: its maker can look at what it truly did. */
  createRig(seed: number): DemoRig;
  /** Nothing runs before there is a plan, so that the same seed and plan always play the same. */
  readonly waitsForPlan: true;
}

export interface SimulatedOptions {
  /** The same seed gives the same run of the rig. */
  readonly seed: number;
  /** How much faster than life. */
  readonly speed: number;
  readonly clock: RecordingClock;
  readonly listener: SourceListener;
  /** What the operator at the rig is told now. */
  readonly instruction: () => Instruction;
  readonly demonstration?: Demonstration | undefined;
}

/** The demonstration rig, paced by the clock: its bytes take the way that a board's bytes take. */
export function openSimulated(options: SimulatedOptions): Source {
  const { seed, speed, clock, listener, instruction, demonstration } = options;
  const createRig = demonstration?.createRig ?? createDemoRig;
  const tell = listener.input.bind(listener);
  let rig: DemoRig;
  let lines: LineReader;
  /** On the clock: when it was switched on, and how long it has run since. */
  let startedAt_s = 0;
  let ran_s = 0;
  /** The next one to be run, counted from switching on. */
  let slice = 0;
  /** Answered with the next turn, as a board takes its time. */
  const asked: Request[] = [];

  function switchOn(): void {
    rig = createRig(seed);
    startedAt_s = clock();
    ran_s = 0;
    slice = 0;
    plugIn(startedAt_s);
  }

  function plugIn(at_s: number): void {
    lines = createLineReader(tell);
    tell({
      kind: 'opened',
      at_s,
      link: {
        source: 'simulated',
        id: `simulated:${seed}`,
        name: 'Simulated rig',
        // Faster than life, the rig's clock is not the laptop's clock in any sense.
        clock: speed === 1 ? 'arrival' : 'stream',
        wholeFromStart: true,
      },
    });
  }

  function turn(): void {
    const now_s = clock();
    const isHeld = demonstration?.waitsForPlan === true && instruction().step === 'no-plan';
    if (isHeld) startedAt_s = now_s - ran_s;
    const behind_s = now_s - startedAt_s - ran_s;
    if (behind_s > ASLEEP_S) {
      if (speed === 1) restart(now_s);
      // Too much for this computer: let it run slower rather than ever further behind.
      else startedAt_s += behind_s;
      return;
    }
    run(Math.min(now_s - startedAt_s, ran_s + CATCH_UP_S), now_s);
    const heard = rig.isPluggedIn ? asked.splice(0) : [];
    for (const request of heard) lines.push(answer(rig, request), now_s);
  }

  /** In slices on a grid of rig time, so that the same seed and plan always play the same. */
  function run(to_s: number, now_s: number): void {
    // A clock in whole microseconds may fall short of a slice by less than one of them.
    const end = to_s * speed * SLICES_PER_S + 1e-4;
    while (slice <= end) {
      runSlice(slice / SLICES_PER_S, now_s);
      slice += 1;
    }
    ran_s = to_s;
  }

  function runSlice(to_s: number, now_s: number): void {
    const wasIn = rig.isPluggedIn;
    const bytes = advance(rig, to_s, instruction());
    if (wasIn && !rig.isPluggedIn) {
      tell({ kind: 'closed', at_s: now_s, reason: 'unplugged' });
      listener.port({ phase: 'unplugged', board: SIMULATED_BOARD });
    }
    if (!wasIn && rig.isPluggedIn) {
      plugIn(now_s);
      listener.port({ phase: 'simulated', seed });
    }
    lines.push(bytes, now_s);
  }

  function restart(now_s: number): void {
    tell({ kind: 'closed', at_s: now_s, reason: 'unplugged' });
    switchOn();
  }

  switchOn();
  listener.port({ phase: 'simulated', seed });
  const timer = setInterval(turn, TURN_MS);
  return {
    presumeLost: () => undefined,
    ask: (request) => void asked.push(request),
    close: (reason = 'ended') => {
      clearInterval(timer);
      tell({ kind: 'closed', at_s: clock(), reason });
      if (reason === 'ended') listener.port({ phase: 'ended' });
      return Promise.resolve();
    },
  };
}
