/** A whole experiment, played by the virtual rig and its operator who is led through the plan. */
import { experimentView } from '#core/experiment/conductor/view.ts';
import { instructionOf } from '#core/experiment/conductor/instruction.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { Trial } from '#core/experiment/trial.ts';
import type { ExperimentView, Question, Step } from '#core/experiment/view.ts';
import type { Input } from '#core/inputs.ts';
import type { Link } from '#core/link.ts';
import { begin, type PipelineState } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { advance, createDemoRig, type DemoRig } from '#core/virtual-rig/demo.ts';
import { createLineReader } from '../../server/sources/lines.ts';

const SLICE_S = 0.1;
/** No experiment of fifteen runs takes this long. */
const LONGEST_S = 3600;

export interface Played {
  readonly inputs: readonly Input[];
  readonly trials: readonly Trial[];
  readonly view: ExperimentView;
  readonly state: PipelineState;
  readonly demo: DemoRig;
  readonly asked: readonly Question[];
  /** Kinds of what was found of the rig at any time. */
  readonly found: ReadonlySet<string>;
  /** Each step as it was first said, with the speed that the rotor had then. */
  readonly steps: readonly { step: Step; runId: string | null; rotorSpeed_radps: number }[];
  readonly lasted_s: number;
}

export function playExperiment(seed: number, plan: Plan): Played {
  const inputs: Input[] = [];
  const asked: Question[] = [];
  const found = new Set<string>();
  const steps: Played['steps'][number][] = [];
  const link: Link = {
    source: 'simulated',
    id: `simulated:${seed}`,
    name: 'Simulated rig',
    clock: 'stream',
    wholeFromStart: true,
  };
  let state = begin(freshHead('simulated'), 1);
  const take = (input: Input): void => {
    inputs.push(input);
    state = step(state, input).state;
    for (const { kind } of state.conductor.findings) found.add(kind);
  };
  const demo = createDemoRig(seed);
  let lines = createLineReader(take);
  take({ kind: 'opened', at_s: 0, link });
  take({ kind: 'command', at_s: 0, command: { say: 'plan', plan } });
  let at_s = 0;
  for (let slice = 1; at_s < LONGEST_S; slice += 1) {
    at_s = Math.round(slice * SLICE_S * 1e6) / 1e6;
    const instruction = instructionOf(state.conductor, state.book.trials);
    const { runId } = instruction;
    const last = steps.at(-1);
    if (last?.step !== instruction.step || last.runId !== runId) {
      const { rotorSpeed_radps } = demo.rig.plant;
      steps.push({ step: instruction.step, runId, rotorSpeed_radps });
    }
    if (instruction.step === 'finished') break;
    const wasIn = demo.isPluggedIn;
    const bytes = advance(demo, at_s, instruction);
    if (wasIn && !demo.isPluggedIn) take({ kind: 'closed', at_s, reason: 'unplugged' });
    if (!wasIn && demo.isPluggedIn) {
      lines = createLineReader(take);
      take({ kind: 'opened', at_s, link });
    }
    lines.push(bytes, at_s);
    const { question } = state.conductor;
    if (question !== null && question !== asked.at(-1)) asked.push(question);
  }
  take({ kind: 'closed', at_s, reason: 'ended' });
  const { trials } = state.book;
  const view = experimentView(state.conductor, trials);
  return { inputs, trials, view, state, demo, asked, found, steps, lasted_s: at_s };
}
