/**
 * A board that answers requests as the grammar says ("From the host"), played over a
 * pseudo-terminal: samples at its pace, an announcement when asked, a zero of what it reads.
 */
import type { ChannelFrame, Frame, Request } from '#protocol/frame.ts';
import { formatFrame, parseRequest } from '#protocol/stillmark-line.ts';
import type { PtyBoard } from './pty-board.ts';

const TURN_MS = 10;
const LIMITS = { shortest_us: 5000, longest_us: 200_000 };

export interface AnsweringBoard {
  /** What the program asked, in order. */
  readonly requests: readonly Request[];
  /** Lines received that are no request. */
  readonly strange: readonly string[];
  /** What the converter gives from now on, by channel. */
  counts: readonly number[];
  /** A board that takes no zero answers so. */
  zeroAnswer: Extract<Frame, { kind: 'answer' }>['result'];
  send(...frames: Frame[]): void;
  /** Announces itself as after a reset. */
  boot(): void;
  stop(): void;
}

export const IDENTITY: Frame = {
  kind: 'identity',
  maker: 'Own workshop',
  model: 'answering board',
  serial: '31',
  firmware: '1.2',
};

export function channelOf(number: number, quantity: string, unit: string, scale: number): ChannelFrame {
  return {
    kind: 'channel',
    number,
    quantity,
    unit,
    scale,
    zero: 0,
    gain: 1.0025,
    offset: 0.2,
    gainUncertainty: 0.004,
    offsetUncertainty: null,
  };
}

export const VOLTAGE = channelOf(1, 'voltage', 'mV', 5);
export const CURRENT = channelOf(2, 'current', 'mA', 0.12);

/** Begins with samples alone, as a board that was running before the port was opened. */
export function playAnsweringBoard(pty: PtyBoard, channels = [VOLTAGE, CURRENT]): AnsweringBoard {
  const requests: Request[] = [];
  const strange: string[] = [];
  const started_ms = performance.now();
  let announced = channels;
  let period_us = 20_000;
  let taken = 0;
  let time_us = 0;
  let sequence = 0;

  const send = (...frames: Frame[]): void =>
    void pty.send(frames.map((frame) => `${formatFrame(frame)}\r\n`).join('')).catch(() => undefined);
  const announce = (cause: 'boot' | 'again'): void =>
    send(
      { kind: 'opening', cause, timeUnit: 'us', channelCount: announced.length },
      IDENTITY,
      ...announced,
      { kind: 'pace', period_us, ...LIMITS },
    );

  function answer(request: Request): void {
    requests.push(request);
    if (request.kind === 'pace') {
      period_us = request.period_us;
      send({ kind: 'answer', request: 'pace', result: 'done' });
    }
    if (request.kind === 'zero') {
      const result = board.zeroAnswer;
      send({ kind: 'answer', request: 'zero', result });
      const zero = board.counts[request.channel - 1] ?? 0;
      if (result === 'done') {
        announced = announced.map((one) => (one.number === request.channel ? { ...one, zero } : one));
      }
    }
    announce('again');
  }

  function listen(): void {
    const text = pty.received().slice(taken);
    const end = text.lastIndexOf('\n') + 1;
    taken += end;
    for (const line of text.slice(0, end).split('\n').filter((one) => one !== '')) {
      const request = parseRequest(line);
      if (request.kind === 'fault') strange.push(line);
      else answer(request);
    }
  }

  function sample(): void {
    const now_us = (performance.now() - started_ms) * 1000;
    for (; time_us <= now_us; time_us += period_us) {
      send({ kind: 'sample', sequence, time: Math.round(time_us), counts: board.counts });
      sequence = (sequence + 1) % 2 ** 16;
    }
  }

  const timer = setInterval(() => {
    listen();
    sample();
  }, TURN_MS);
  const board: AnsweringBoard = {
    requests,
    strange,
    counts: channels.map(() => 0),
    zeroAnswer: 'done',
    send,
    boot: () => announce('boot'),
    stop: () => clearInterval(timer),
  };
  return board;
}
