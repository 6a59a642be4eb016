/**
 * Whatever operators do, in any order, and whatever the rig and the cable do meanwhile: no trial is
 * lost, and what was recorded gives the same again.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Command } from '#core/experiment/command.ts';
import type { Input } from '#core/inputs.ts';
import { begin, type PipelineState } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { decodeInputs, encodeInputs, splitInputs } from '../../../server/store/input-codec.ts';
import { script } from '../../support/bench-script.ts';
import { deed, inputOf, PLAN } from '../../support/operator-deeds.ts';

type Bench = ReturnType<typeof script>;

/** What happens at the rig; after a level the fan may have been stopped or not. */
const happening = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      what: fc.constant('run' as const),
      volts: fc.integer({ min: 8, max: 30 }).map((tenths) => tenths / 10),
      length_s: fc.integer({ min: 2, max: 12 }),
      stops: fc.boolean(),
    }),
  },
  { weight: 1, arbitrary: fc.record({ what: fc.constantFrom('unplug', 'silence', 'restart') }) },
);

/** What is said of the readings as they come, beside what is done to trials and runs. */
const remark = fc.constantFrom<Command[]>(
  { say: 'log-now' },
  { say: 'average' },
  { say: 'is-set' },
  { say: 'leave-it' },
  { say: 'wait' },
  { say: 'go-on' },
  { say: 'fan-is-on', on: true },
  { say: 'fan-is-on', on: false },
);

const event = fc.oneof(
  { weight: 5, arbitrary: fc.record({ kind: fc.constant('happening' as const), happening }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('deed' as const), deed }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('remark' as const), command: remark }) },
);
type Event = typeof event extends fc.Arbitrary<infer T> ? T : never;
type Happening = typeof happening extends fc.Arbitrary<infer T> ? T : never;

function happen(bench: Bench, one: Happening): void {
  switch (one.what) {
    case 'run':
      bench.level(one.volts, one.length_s);
      if (one.stops) bench.level(0, 9);
      return;
    case 'unplug':
      bench.close('unplugged').silence(1).open();
      return;
    case 'silence':
      bench.silence(4);
      return;
    case 'restart':
      // The header once more, as a board sends it that begins anew.
      bench.line('voltage_V,current_A,wind_mps');
  }
}

/** Takes what happened, one event after the other; looks at the book after every input. */
function live(events: readonly Event[]): { inputs: readonly Input[]; state: PipelineState } {
  const bench = script().open().level(0, 1).say({ say: 'plan', plan: PLAN }).level(0, 3);
  const told = new Set<number>();
  let taken = 0;
  let state = begin(freshHead('board'), 1);
  const take = (): void => {
    for (; taken < bench.inputs.length; taken += 1) {
      const result = step(state, bench.inputs[taken]!);
      state = result.state;
      for (const one of result.events) if (one.kind === 'trial') told.add(one.trial.id);
    }
    expect(state.book.trials.map(({ id }) => id)).toEqual([...told].sort((a, b) => a - b));
  };
  take();
  for (const one of events) {
    if (one.kind === 'happening') happen(bench, one.happening);
    else if (one.kind === 'remark') bench.say(one.command);
    else if (state.book.trials.length > 0) bench.inputs.push(inputOf(one.deed, state, bench.now()));
    take();
  }
  bench.close('ended');
  take();
  return { inputs: bench.inputs, state };
}

const told = ({ conductor, book }: PipelineState): unknown => ({
  ledger: conductor.ledger,
  trials: book.trials,
});

it('no trial is lost, and the recorded inputs give the same trials and plan again', () => {
  let trials = 0;
  let acted = 0;
  fc.assert(
    fc.property(fc.array(event, { minLength: 3, maxLength: 14 }), (events) => {
      const { inputs, state } = live(events);
      const stored = splitInputs(inputs).flatMap((chunk) => decodeInputs(encodeInputs(chunk)));
      const again = stored.reduce((one, input) => step(one, input).state, begin(freshHead('board'), 1));
      expect(told(again)).toEqual(told(state));
      trials += state.book.trials.length;
      acted += inputs.filter(({ kind }) => kind === 'action').length;
    }),
    { numRuns: 40 },
  );
  // Far fewer than random events give; none would mean that nothing was tried.
  expect(trials).toBeGreaterThan(20);
  expect(acted).toBeGreaterThan(2);
});
