/** The golden session: how it was recorded, and how trials are derived from it. */
import type { Trial } from '#core/experiment/trial.ts';
import type { Input } from '#core/inputs.ts';
import type { Link } from '#core/link.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { advance, createDemoRig } from '#core/virtual-rig/demo.ts';
import { createLineReader } from '../../server/sources/lines.ts';

const SEED = 7;
const LENGTH_S = 150;
const UNPLUGGED_AT_S = 75;
const CHUNK_S = 0.1;

/** What a source would have told: the simulated rig, its cable pulled once and put back. */
export function recordInputs(): Input[] {
  const inputs: Input[] = [];
  const link: Link = {
    source: 'simulated',
    id: `simulated:${SEED}`,
    name: 'Simulated rig',
    clock: 'arrival',
    wholeFromStart: true,
  };
  const connect = (at_s: number) => {
    inputs.push({ kind: 'opened', at_s, link });
    return { rig: createDemoRig(SEED), lines: createLineReader((input) => inputs.push(input)), from_s: at_s };
  };
  let board = connect(0);
  for (let chunk = 1; chunk <= LENGTH_S / CHUNK_S; chunk += 1) {
    const at_s = Math.round(chunk * CHUNK_S * 1e6) / 1e6;
    board.lines.push(advance(board.rig, at_s - board.from_s), at_s);
    if (at_s === UNPLUGGED_AT_S) {
      inputs.push({ kind: 'closed', at_s, reason: 'unplugged' });
      board = connect(at_s);
    }
  }
  inputs.push({ kind: 'closed', at_s: LENGTH_S, reason: 'ended' });
  return inputs;
}

/** Every revision that the inputs give, in order. */
export function deriveTrials(inputs: readonly Input[]): Trial[] {
  let state = begin(freshHead('simulated'), 1);
  const trials: Trial[] = [];
  for (const input of inputs) {
    const result = step(state, input);
    state = result.state;
    for (const event of result.events) if (event.kind === 'trial') trials.push(event.trial);
  }
  return trials;
}
