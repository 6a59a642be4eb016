import type { Instruction } from '#core/virtual-rig/led-operator.ts';
import { createDemoRig } from '#core/virtual-rig/demo.ts';
import { RigCable, SLICES_PER_S } from './rig-cable.ts';
import type { RecordingClock, Source, SourceListener } from './source.ts';

const TURN_MS = 20;
/** The most that is made up for in one turn after the program was held up. */
const CATCH_UP_S = 0.25;
/** Held up for longer, the laptop has slept: the rig is switched on anew, as a board would be. */
const ASLEEP_S = 5;

export interface SimulatedOptions {
  /** The same seed gives the same run of the rig. */
  readonly seed: number;
  /** How much faster than life. */
  readonly speed: number;
  readonly clock: RecordingClock;
  readonly listener: SourceListener;
  /** What the operator at the rig is told now. */
  readonly instruction: () => Instruction;
}

/** The demonstration rig, paced by the clock. */
export function openSimulated(options: SimulatedOptions): Source {
  const { seed, speed, clock, listener, instruction } = options;
  let cable: RigCable;
  /** On the clock: when it was switched on, and how long it has run since. */
  let startedAt_s = 0;
  let ran_s = 0;

  function switchOn(): void {
    startedAt_s = clock();
    ran_s = 0;
    const parts = {
      seed,
      rig: createDemoRig(seed),
      // Faster than life, the rig's clock is not the laptop's clock in any sense.
      clock: speed === 1 ? 'arrival' : 'stream',
      listener,
      instruction,
    } as const;
    cable = new RigCable(parts, startedAt_s);
  }

  function turn(): void {
    const now_s = clock();
    const behind_s = now_s - startedAt_s - ran_s;
    if (behind_s > ASLEEP_S) {
      if (speed === 1) restart(now_s);
      // Too much for this computer: let it run slower rather than ever further behind.
      else startedAt_s += behind_s;
      return;
    }
    run(Math.min(now_s - startedAt_s, ran_s + CATCH_UP_S), now_s);
    cable.answer(now_s);
  }

  function run(to_s: number, now_s: number): void {
    // A clock in whole microseconds may fall short of a slice by less than one of them.
    const end_s = to_s * speed + 1e-4 / SLICES_PER_S;
    while (cable.next_s <= end_s) cable.runSlice(now_s);
    ran_s = to_s;
  }

  function restart(now_s: number): void {
    listener.input({ kind: 'closed', at_s: now_s, reason: 'unplugged' });
    switchOn();
  }

  switchOn();
  listener.port({ phase: 'simulated', seed });
  const timer = setInterval(turn, TURN_MS);
  return {
    presumeLost: () => undefined,
    ask: (request) => cable.ask(request),
    close: (reason = 'ended') => {
      clearInterval(timer);
      listener.input({ kind: 'closed', at_s: clock(), reason });
      if (reason === 'ended') listener.port({ phase: 'ended' });
      return Promise.resolve();
    },
  };
}
