import { advance, createDemoRig, type DemoRig } from '#core/virtual-rig/demo.ts';
import { createLineReader, type LineReader } from './lines.ts';
import type { RecordingClock, Source, SourceListener } from './source.ts';

const TURN_MS = 20;
/** The most that is made up for in one turn after the program was held up. */
const CATCH_UP_S = 0.25;
/** Held up for longer, the laptop has slept: the rig is then switched on anew, as a board would be. */
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
  let ranTo_s = 0;
  let owed_s = 0;
  let lastTurn_s = clock();

  function switchOn(): void {
    rig = createDemoRig(seed);
    lines = createLineReader(tell);
    ranTo_s = 0;
    owed_s = 0;
    tell({
      kind: 'opened',
      at_s: clock(),
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
    const passed_s = now_s - lastTurn_s;
    lastTurn_s = now_s;
    if (passed_s > ASLEEP_S) {
      tell({ kind: 'closed', at_s: now_s, reason: 'unplugged' });
      switchOn();
      return;
    }
    // A computer too slow for this speed runs the rig slower rather than falling behind for ever.
    owed_s = Math.min(owed_s + passed_s, ASLEEP_S);
    const step_s = Math.min(owed_s, CATCH_UP_S);
    owed_s -= step_s;
    ranTo_s += step_s * speed;
    lines.push(advance(rig, ranTo_s), now_s);
  }

  switchOn();
  listener.port({ phase: 'simulated', seed });
  const timer = setInterval(turn, TURN_MS);
  return {
    presumeLost: () => undefined,
    close: (reason = 'ended') => {
      clearInterval(timer);
      tell({ kind: 'closed', at_s: clock(), reason });
      if (reason === 'ended') listener.port({ phase: 'ended' });
      return Promise.resolve();
    },
  };
}
