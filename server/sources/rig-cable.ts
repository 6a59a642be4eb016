import type { Request } from '#protocol/frame.ts';
import type { Board, Link } from '#core/link.ts';
import { advance, answer, type DemoRig } from '#core/virtual-rig/demo.ts';
import type { Instruction } from '#core/virtual-rig/led-operator.ts';
import { createLineReader, type LineReader } from './lines.ts';
import type { SourceListener } from './source.ts';

/** The operator hears what to do so often in a second of the rig's; often against any deed. */
export const SLICES_PER_S = 50;

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

export interface RigCableParts {
  readonly seed: number;
  readonly rig: DemoRig;
  readonly clock: Link['clock'];
  readonly listener: Pick<SourceListener, 'input' | 'port'>;
  /** What the operator at the rig is told now. */
  readonly instruction: () => Instruction;
}

/**
 * Between the demonstration rig and the program: the rig's bytes take the way that a board's bytes
 * take. It goes in slices on a grid of the rig's time, so that the same seed and plan always play
 * the same.
 */
export class RigCable {
  readonly #parts: RigCableParts;
  #lines: LineReader;
  /** The next one to be run, counted from switching on. */
  #slice = 0;
  /** Answered in the next turn, as a board takes its time. */
  readonly #asked: Request[] = [];

  /** Plugs a rig in that was just switched on. */
  constructor(parts: RigCableParts, at_s: number) {
    this.#parts = parts;
    this.#lines = this.#plugIn(at_s);
  }

  /** The rig's time at the end of the slice that is up. */
  get next_s(): number {
    return this.#slice / SLICES_PER_S;
  }

  /** Runs the slice that is up; all that it sends arrives at `at_s`. */
  runSlice(at_s: number): void {
    const { seed, rig, listener, instruction } = this.#parts;
    const wasIn = rig.isPluggedIn;
    const bytes = advance(rig, this.next_s, instruction());
    this.#slice += 1;
    if (wasIn && !rig.isPluggedIn) {
      listener.input({ kind: 'closed', at_s, reason: 'unplugged' });
      listener.port({ phase: 'unplugged', board: SIMULATED_BOARD });
    }
    if (!wasIn && rig.isPluggedIn) {
      this.#lines = this.#plugIn(at_s);
      listener.port({ phase: 'simulated', seed });
    }
    this.#lines.push(bytes, at_s);
  }

  ask(request: Request): void {
    this.#asked.push(request);
  }

  /** What has been asked meanwhile is answered; what is not plugged in hears nothing. */
  answer(at_s: number): void {
    const { rig } = this.#parts;
    const heard = rig.isPluggedIn ? this.#asked.splice(0) : [];
    for (const request of heard) this.#lines.push(answer(rig, request), at_s);
  }

  #plugIn(at_s: number): LineReader {
    const { seed, clock, listener } = this.#parts;
    const link: Link = {
      source: 'simulated',
      id: `simulated:${seed}`,
      name: 'Simulated rig',
      clock,
      wholeFromStart: true,
    };
    const lines = createLineReader(listener.input.bind(listener));
    listener.input({ kind: 'opened', at_s, link });
    return lines;
  }
}
