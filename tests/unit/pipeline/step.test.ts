import { describe, expect, it } from 'vitest';
import type { Event } from '#core/events.ts';
import type { Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { LOAD_OHM, script } from '../../support/bench-script.ts';

function run(inputs: readonly Input[]): Event[] {
  let state = begin(freshHead('board'), 1);
  const events: Event[] = [];
  for (const input of inputs) {
    const result = step(state, input);
    state = result.state;
    events.push(...result.events);
  }
  return events;
}

const trialsOf = (events: readonly Event[]) => events.flatMap((event) => (event.kind === 'trial' ? [event.trial] : []));
const healthsOf = (events: readonly Event[]) => events.flatMap((event) => (event.kind === 'health' ? [event.health] : []));

describe('the pipeline', () => {
  it('makes one trial of one plateau: logged, then final', () => {
    const events = run(script().open().level(0, 2).level(2.4, 14).level(0, 4).close('ended').inputs);
    const trials = trialsOf(events);
    expect(trials.map(({ id, revision, state }) => [id, revision, state])).toEqual([
      [1, 1, 'logged'],
      [1, 2, 'final'],
    ]);
    expect(trials[1]?.power_W?.value).toBeCloseTo(2.4 ** 2 / LOAD_OHM, 2);
    const order = events.flatMap(({ kind }) => (['declared', 'trial', 'closed'].includes(kind) ? [kind] : []));
    expect(order).toEqual(['declared', 'trial', 'trial', 'closed']);
  });

  it('takes power from the products of the samples', () => {
    const [, final] = trialsOf(run(script().open().level(2.4, 14).level(0, 4).close('ended').inputs));
    const { voltage_V, current_A, power_W } = final ?? {};
    // The mean of products is above the product of means by the covariance, here 0.3 % squared.
    const product_W = (voltage_V?.value ?? 0) * (current_A?.value ?? 0);
    expect((power_W?.value ?? 0) / product_W - 1).toBeGreaterThan(2e-6);
    expect((power_W?.value ?? 0) / product_W - 1).toBeLessThan(2e-5);
  });

  it('logs nothing while the rig stands idle', () => {
    expect(trialsOf(run(script().open().level(0, 30).close('ended').inputs))).toEqual([]);
  });

  it('keeps a plateau that the cable cut as interrupted', () => {
    const cut = trialsOf(run(script().open().level(0, 2).level(2.4, 14).close('unplugged').inputs));
    expect(cut.at(-1)).toMatchObject({ id: 1, state: 'interrupted', recorded: true });
  });

  it('never carries a plateau across an unplugging', () => {
    const builder = script().open().level(0, 2).level(2.4, 14).close('unplugged').silence(2);
    const trials = trialsOf(run(builder.open().level(2.4, 14).close('ended').inputs));
    const last = trials.at(-1);
    expect(new Set(trials.map(({ id }) => id))).toEqual(new Set([1, 2]));
    expect(last?.start_s).toBeGreaterThan(18);
  });

  it('notices silence when no event tells of it, and breaks the plateau off', () => {
    const events = run(script().open().level(0, 2).level(2.4, 14).silence(3).inputs);
    expect(healthsOf(events)).toEqual(['starting', 'reading', 'silent']);
    expect(trialsOf(events).at(-1)).toMatchObject({ state: 'interrupted' });
  });

  it('takes a gap in the samples for an interruption, and a hiccup not', () => {
    const withPause = (length_s: number) =>
      trialsOf(run(script().open().level(0, 2).level(2.4, 12).skip(length_s).level(2.4, 12).close('ended').inputs));
    expect(new Set(withPause(1.5).map(({ id }) => id)).size).toBe(1);
    const cut = withPause(3);
    expect(cut.find(({ state }) => state === 'interrupted')?.end_s).toBeLessThan(14.1);
    expect(new Set(cut.map(({ id }) => id)).size).toBe(2);
  });

  it('breaks off what went on when the computer slept, though no time seems to have passed', () => {
    const before = script().open().level(0, 2).level(2.4, 12);
    const slept: Input = { kind: 'slept', at_s: before.now(), lasted_s: 600 };
    before.inputs.push(slept);
    const events = run(before.level(2.4, 12).close('ended').inputs);
    const cut = trialsOf(events).filter(({ state }) => state === 'interrupted');
    expect(cut.map(({ id }) => id)).toEqual([1]);
    expect(cut[0]?.end_s).toBeLessThanOrEqual(slept.at_s);
    expect(trialsOf(events).at(-1)).toMatchObject({ id: 2 });
    const notices = events.flatMap((event) => (event.kind === 'notice' ? [event.notice] : []));
    expect(notices).toContainEqual({
      code: 'computer-slept',
      message: expect.stringContaining('slept for 10 min') as string,
      about: ['10 min'],
    });
  });

  it('says what is wrong when a board sends nothing readable', () => {
    const builder = script();
    builder.inputs.push({
      kind: 'opened',
      at_s: 0,
      link: { source: 'serial', id: 'b', name: 'b', clock: 'arrival', wholeFromStart: false },
    });
    const garbage = Array.from({ length: 40 }, (_, index): Input => ({ kind: 'line', at_s: index / 10, text: 'boot: ok?!' }));
    const events = run([...builder.inputs, ...garbage]);
    expect(healthsOf(events)).toEqual(['starting', 'unreadable']);
    expect(events.filter(({ kind }) => kind === 'fault').length).toBeGreaterThan(30);
    expect(events.some(({ kind }) => kind === 'sample')).toBe(false);
  });

  it('asks for a header when numbers come without one', () => {
    const opened: Input = {
      kind: 'opened',
      at_s: 0,
      link: { source: 'serial', id: 'b', name: 'b', clock: 'arrival', wholeFromStart: false },
    };
    const rows = Array.from({ length: 40 }, (_, index): Input => ({ kind: 'line', at_s: index / 10, text: '2.31,105.2' }));
    expect(healthsOf(run([opened, ...rows]))).toEqual(['starting', 'unmapped']);
  });

  it('strikes by recording and time, and says when nothing lies there', () => {
    const builder = script().open().level(0, 2).level(2.4, 14).level(0, 4);
    const [, final] = trialsOf(run(builder.inputs));
    const time_s = ((final?.start_s ?? 0) + (final?.end_s ?? 0)) / 2;
    const strike = (at: number): Input => ({
      kind: 'action',
      at_s: builder.now(),
      action: { kind: 'strike', recordingId: 1, time_s: at, reason: 'bumped' },
    });
    const hit = run([...builder.inputs, strike(time_s)]);
    expect(trialsOf(hit).at(-1)).toMatchObject({ revision: 3, struck: true, strikeReason: 'bumped' });
    const missed = run([...builder.inputs, strike(1)]);
    expect(missed.at(-1)).toMatchObject({ kind: 'notice', notice: { code: 'orphan-action' } });
  });

  it('gives the same events for the same inputs, to the last bit', () => {
    const { inputs } = script().open().level(0, 2).level(2.4, 14).level(1.7, 12).level(0, 4).close('ended');
    expect(run(inputs)).toEqual(run(inputs));
  });
});
