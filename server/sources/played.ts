import { setTimeout as pause } from 'node:timers/promises';
import type { Request } from '#protocol/frame.ts';
import type { DemoRig } from '#core/virtual-rig/demo.ts';
import type { Instruction } from '#core/virtual-rig/led-operator.ts';
import { RigCable } from './rig-cable.ts';
import type { RecordingClock, Source, SourceListener } from './source.ts';

/** Everything else has its turn at least this often. */
const TURN_MS = 15;
/** The most that is made up for in one turn after the program was held up. */
const CATCH_UP_S = 0.25;

/** For whoever plays an experiment on the rig, and judges the tool by it. */
export interface Demonstration {
  /** How the rig is made: its maker can look at what it truly did. */
  createRig(seed: number): DemoRig;
  /** How much faster than life; null: as fast as it will go. */
  readonly speed: number | null;
  /** The recording's time, which the rig alone moves on. */
  readonly time: { readonly clock: RecordingClock; moveTo(to_s: number): void };
}

export interface PlayedOptions {
  readonly seed: number;
  readonly listener: SourceListener;
  readonly instruction: () => Instruction;
  readonly demonstration: Demonstration;
  /** What is not yet on disk and told of all that was sent; null: nothing. */
  readonly untold: () => Promise<void> | null;
}

/**
 * The demonstration rig for an experiment that is played from its plan to its last step. Its time
 * is the recording's time, and it stands still until all that came of it is on disk and told: the
 * operator at the rig has then heard everything up to that moment, however slow the computer. So
 * the same seed and plan always play the same. Before there is a plan, and when it is done, it
 * stands.
 */
export function openPlayed(options: PlayedOptions): Source {
  return new PlayedRig(options);
}

class PlayedRig implements Source {
  readonly #options: PlayedOptions;
  readonly #cable: RigCable;
  /** On the recording's clock. */
  readonly #switchedOnAt_s: number;
  readonly #over: Promise<void>;
  #isClosed = false;

  constructor(options: PlayedOptions) {
    const { seed, demonstration, listener, instruction } = options;
    this.#options = options;
    this.#switchedOnAt_s = demonstration.time.clock();
    const rig = demonstration.createRig(seed);
    const parts = { seed, rig, clock: 'stream', listener, instruction } as const;
    this.#cable = new RigCable(parts, this.#switchedOnAt_s);
    listener.port({ phase: 'simulated', seed });
    this.#runSlice();
    this.#over = this.#play();
  }

  presumeLost(): void {}

  ask(request: Request): void {
    this.#cable.ask(request);
  }

  async close(reason: 'ended' | 'replaced' = 'ended'): Promise<void> {
    this.#isClosed = true;
    await this.#over;
    const { demonstration, listener } = this.#options;
    listener.input({ kind: 'closed', at_s: demonstration.time.clock(), reason });
    if (reason === 'ended') listener.port({ phase: 'ended' });
  }

  async #play(): Promise<void> {
    const { speed } = this.#options.demonstration;
    let turn_ms = performance.now();
    /** How far it may run, in its own time; too much for this computer makes it slower. */
    let allowed_s = 0;
    while (!this.#isClosed) {
      await pause(speed === null && !this.#stands() ? 0 : TURN_MS);
      const passed_s = Math.min((performance.now() - turn_ms) / 1000, CATCH_UP_S);
      turn_ms = performance.now();
      if (this.#stands()) continue;
      const kept_s = Math.min(allowed_s, this.#cable.next_s);
      allowed_s = speed === null ? Infinity : kept_s + passed_s * speed;
      await this.#run(allowed_s, turn_ms + TURN_MS);
    }
  }

  async #run(to_s: number, until_ms: number): Promise<void> {
    while (this.#cable.next_s <= to_s && performance.now() < until_ms) {
      if (this.#isClosed || this.#stands()) return;
      this.#runSlice();
      const untold = this.#options.untold();
      if (untold !== null) await untold;
    }
  }

  #runSlice(): void {
    const { time } = this.#options.demonstration;
    const at_s = this.#switchedOnAt_s + this.#cable.next_s;
    time.moveTo(at_s);
    this.#cable.runSlice(time.clock());
    this.#cable.answer(time.clock());
  }

  #stands(): boolean {
    const { step } = this.#options.instruction();
    return step === 'no-plan' || step === 'finished';
  }
}
