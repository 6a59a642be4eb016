import { describe, expect, it } from 'vitest';
import type { Event } from '#core/events.ts';
import type { Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';
import { script } from '../../support/bench-script.ts';

type Button = 'log' | 'strike' | 'next';

/** What the inputs give, and then what each press gives. */
function pressAfter(inputs: readonly Input[], buttons: readonly Button[]): (readonly Event[])[] {
  let state = begin(freshHead('board'), 1);
  const take = (input: Input): readonly Event[] => {
    const result = step(state, input);
    state = result.state;
    return result.events;
  };
  inputs.forEach(take);
  const at_s = inputs.at(-1)?.at_s ?? 0;
  return buttons.map((button, number) =>
    take({ kind: 'line', at_s, text: formatFrame({ kind: 'button', number, time: 5, button }) }),
  );
}

const trialsOf = (events: readonly Event[] = []) =>
  events.flatMap((event) => (event.kind === 'trial' ? [event.trial] : []));
const noticesOf = (events: readonly Event[] = []) =>
  events.flatMap((event) => (event.kind === 'notice' ? [event.notice] : []));

const ONE_TRIAL = script().open().level(0, 2).level(2.4, 14).level(0, 4).inputs;

describe('the strike button on the board', () => {
  it('sets the newest trial aside, as an operator would, and says so', () => {
    const [pressed] = pressAfter(ONE_TRIAL, ['strike']);
    expect(trialsOf(pressed)).toMatchObject([{ id: 1, revision: 3, struck: true }]);
    expect(noticesOf(pressed)).toMatchObject([{ code: 'button-press' }]);
    expect(noticesOf(pressed)[0]?.message).toContain('trial 1 is struck');
  });

  it('strikes the trial that is still going on, and it stays struck when it ends', () => {
    const running = script().open().level(0, 2).level(2.4, 14);
    const press: Input = {
      kind: 'line',
      at_s: running.now(),
      text: formatFrame({ kind: 'button', number: 1, time: 5, button: 'strike' }),
    };
    running.inputs.push(press);
    const after = running.level(0, 4).inputs;
    const [again] = pressAfter(after, ['strike']);
    expect(noticesOf(again)[0]?.message).toContain('trial 1 is struck already');
  });

  it('does not go on to the trial before', () => {
    const two = script().open().level(0, 2).level(2.4, 14).level(1.6, 14).level(0, 4).inputs;
    const [first, second] = pressAfter(two, ['strike', 'strike']);
    expect(trialsOf(first)).toMatchObject([{ id: 2, struck: true }]);
    expect(trialsOf(second)).toEqual([]);
  });

  it('says when there is nothing to strike', () => {
    const [pressed] = pressAfter(script().open().level(0, 2).inputs, ['strike']);
    expect(trialsOf(pressed)).toEqual([]);
    expect(noticesOf(pressed)[0]?.message).toContain('no trial to strike');
  });
});

describe('the log button on the board', () => {
  it('logs what is read now, with what the last seconds tell of its uncertainty', () => {
    const rising = script().open().level(0, 2).level(2.4, 4).inputs;
    const [pressed] = pressAfter(rising, ['log']);
    expect(trialsOf(pressed)).toMatchObject([{ id: 1, state: 'final', basis: 'window' }]);
    expect(noticesOf(pressed)[0]?.message).toContain('logged as trial 1');
  });

  it('says when the stretch is logged already', () => {
    const open = script().open().level(0, 2).level(2.4, 16).inputs;
    const [pressed] = pressAfter(open, ['log']);
    expect(trialsOf(pressed)).toEqual([]);
    expect(noticesOf(pressed)[0]?.message).toContain('logged already, as trial 1');
  });

  it('says when there is nothing to log', () => {
    const [pressed] = pressAfter(script().open().level(0, 0.5).inputs, ['log']);
    expect(trialsOf(pressed)).toEqual([]);
    expect(noticesOf(pressed)).toMatchObject([{ code: 'button-press' }]);
  });
});

describe('the next button on the board', () => {
  it('says that there is no plan to go on in', () => {
    const [pressed] = pressAfter(ONE_TRIAL, ['next']);
    expect(noticesOf(pressed)).toMatchObject([{ code: 'button-press' }]);
    expect(noticesOf(pressed)[0]?.message).toContain('no plan');
  });
});
