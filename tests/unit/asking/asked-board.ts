/** A board's connection as the pipeline sees it: what it says at which time, and what it is asked. */
import type { Event } from '#core/events.ts';
import type { Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import type { ChannelFrame, Frame, Request } from '#protocol/frame.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';
import { BOARD, channel, configured } from '../reading/harness.ts';

export const VOLTAGE = channel(1, 'voltage', 'mV', { scale: 5 });
export const CURRENT = channel(2, 'current', 'mA', { scale: 0.12, zero: 3 });
export const IDENTITY: Frame = {
  kind: 'identity',
  maker: 'Own workshop',
  model: 'bench',
  serial: '7',
  firmware: '1',
};
export const BEAT: Frame = { kind: 'beat', time: 5 };

export function pace(period_us: number, shortest_us = 1000, longest_us = 200_000): Frame {
  return { kind: 'pace', period_us, shortest_us, longest_us };
}

export function opening(cause: 'boot' | 'again' = 'boot'): Frame {
  return { kind: 'opening', cause, timeUnit: 'us', channelCount: 2 };
}

/** A whole announcement. */
export function announcement(
  period_us = 10_000,
  { cause = 'boot', current = CURRENT }: { cause?: 'boot' | 'again'; current?: ChannelFrame } = {},
): Frame[] {
  return [opening(cause), IDENTITY, VOLTAGE, current, pace(period_us)];
}

export type Asked = readonly [request: Request, at_s: number];

export function connect() {
  let state = begin(freshHead('board'), 1);
  const events: Event[] = [];
  const asked: Asked[] = [];
  let sequence = 0;
  const take = (input: Input): void => {
    const result = step(state, input);
    state = result.state;
    for (const event of result.events) {
      events.push(event);
      if (event.kind === 'ask') asked.push([event.request, input.at_s]);
    }
  };
  const bench = {
    events,
    asked,
    take,
    state: () => state,
    /** The kinds of request, in order. */
    kinds: () => asked.map(([request]) => request.kind),
    notices: () => events.flatMap((event) => (event.kind === 'notice' ? [event.notice] : [])),
    open: (at_s = 0) => take({ kind: 'opened', at_s, link: BOARD }),
    close: (at_s: number) => take({ kind: 'closed', at_s, reason: 'unplugged' }),
    say(at_s: number, ...frames: (Frame | string)[]) {
      for (const frame of frames) {
        const text = typeof frame === 'string' ? frame : formatFrame(frame);
        take({ kind: 'line', at_s, text });
      }
    },
    /** Ticks twice a second, as the program does while nothing arrives. */
    wait(from_s: number, to_s: number) {
      for (let at_s = from_s; at_s <= to_s; at_s += 0.5) take({ kind: 'tick', at_s });
    },
    /** Samples of both channels, 100 a second, their device time the time of arrival. */
    read(from_s: number, to_s: number, counts: readonly [number, number] = [0, 0]) {
      const count = Math.round((to_s - from_s) * 100);
      for (let i = 0; i < count; i += 1) {
        const at_s = Math.round((from_s + i / 100) * 1e6) / 1e6;
        bench.say(at_s, { kind: 'sample', sequence, time: Math.round(at_s * 1e6), counts });
        sequence = (sequence + 1) % 2 ** 16;
      }
    },
    configure: (at_s: number, sampleRate_Hz: number) =>
      take({ kind: 'configured', at_s, configuration: configured({ sampleRate_Hz }) }),
    zero: (at_s: number, number: number) => take({ kind: 'zero', at_s, channel: number }),
  };
  return bench;
}
