import type { Request } from '#protocol/frame.ts';
import { advance, answer, createDemoRig, type DemoRig } from '#core/virtual-rig/demo.ts';
import { createLineReader, type LineReader } from './lines.ts';
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
}

/** The demonstration rig, paced by the clock: its bytes take the way that a board's bytes take. */
export function openSimulated({ seed, speed, clock, listener }: SimulatedOptions): Source {
  const tell = listener.input.bind(listener);
  let rig: DemoRig;
  let lines: LineReader;
  /** On the clock: when it was switched on, and how long it has run since. */
  let startedAt_s = 0;
  let ran_s = 0;
  /** Answered with the next turn, as a board takes its time. */
  const asked: Request[] = [];

  function switchOn(): void {
    rig = createDemoRig(seed);
    lines = createLineReader(tell);
    startedAt_s = clock();
    ran_s = 0;
    tell({
      kind: 'opened',
      at_s: startedAt_s,
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
    const behind_s = now_s - startedAt_s - ran_s;
    if (behind_s > ASLEEP_S) {
      if (speed === 1) restart(now_s);
      // Too much for this computer: let it run slower rather than ever further behind.
      else startedAt_s += behind_s;
      return;
    }
    ran_s = Math.min(now_s - startedAt_s, ran_s + CATCH_UP_S);
    lines.push(advance(rig, ran_s * speed), now_s);
    for (const request of asked.splice(0)) lines.push(answer(rig, request), now_s);
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
