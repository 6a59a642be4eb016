/** The sketch for 32-bit boards, running as a process of this computer. */
import { expect, it } from 'vitest';
import { needsFirmwareTools } from '../../support/needs.ts';
import { withBoard } from './fast-board.ts';

const SPAN = 2 ** 32;
const PERIOD_US = 20_000;
/** A0, A1, D2 and D4 of the double. */
const VOLTAGE_PIN = 14;
const CURRENT_PIN = 15;
const WIND_PIN = 2;
const LOG_PIN = 4;
const SHORTLY_BEFORE_WRAP = {
  name: 'wrap',
  defines: `-DSTILLMARK_CLOCK_START_US=${SPAN - 700_000}UL`,
};
/** The converter's 4096 steps, 16 counts each. */
const FULL_SCALE = 65_536;

function stepsBack(values: readonly number[]): number {
  return values.slice(1).filter((value, index) => value <= (values[index] as number)).length;
}

needsFirmwareTools().describe('fast-board', () => {
  it('announces itself, then sends what it converts, in order', async () => {
    await withBoard(async (board) => {
      board.control(`level ${VOLTAGE_PIN} 500`, `level ${CURRENT_PIN} 125`);
      await board.until('60 samples', () => board.of('sample').length >= 60);
      expect(board.frames.slice(0, 6).map(({ kind }) => kind)).toEqual([
        'opening', 'identity', 'channel', 'channel', 'channel', 'pace',
      ]);
      expect(board.of('opening')[0]).toMatchObject({ cause: 'boot', channelCount: 3 });
      const samples = board.of('sample');
      expect(samples.map(({ sequence }) => sequence)).toEqual(samples.map((_, index) => index));
      expect(samples.at(-1)?.counts.slice(0, 2)).toEqual([FULL_SCALE / 2, FULL_SCALE / 8]);
      const first = samples[0]?.time ?? 0;
      samples.forEach(({ time }, index) => {
        // A round of conversions takes 0.1 ms of the double's time.
        expect(Math.abs(time - first - index * PERIOD_US)).toBeLessThan(500);
      });
      expect(board.frames.map(({ kind }) => kind)).not.toContain('fault');
    });
  });

  it('goes on over the wrap of its clock', async () => {
    await withBoard(async (board) => {
      await board.until('60 samples', () => board.of('sample').length >= 60);
      const times = board.of('sample').map(({ time }) => time);
      expect(stepsBack(times)).toBe(1);
      times.slice(1).forEach((time, index) => {
        const step_us = (time - (times[index] as number) + SPAN) % SPAN;
        expect(Math.abs(step_us - PERIOD_US)).toBeLessThan(500);
      });
    }, SHORTLY_BEFORE_WRAP);
  });

  it('obeys pace and zero, and tells a press', async () => {
    await withBoard(async (board) => {
      board.control(`level ${VOLTAGE_PIN} 10`);
      await board.until('10 samples', () => board.of('sample').length >= 10);
      board.control(`pin ${LOG_PIN} 0`);
      await board.until('a press twice', () => board.of('button').length >= 2);
      const presses = board.of('button').map(({ number, button }) => `${number} ${button}`);
      expect(presses).toEqual(['0 log', '0 log']);
      board.ask({ kind: 'pace', period_us: 1000 });
      board.ask({ kind: 'zero', channel: 1 });
      await board.until('the new zero', () => board.of('channel').some(({ zero }) => zero !== 0));
      expect(board.of('answer')).toEqual([
        { kind: 'answer', request: 'pace', result: 'done' },
        { kind: 'answer', request: 'zero', result: 'done' },
      ]);
      // 4096 · 10 / 1000 steps, cut off as a converter does, 16 counts each.
      const zeroed = board.of('channel').find(({ zero }) => zero !== 0);
      expect(zeroed).toMatchObject({ number: 1, zero: 40 * 16 });
      const times = board.of('sample').slice(-100).map(({ time }) => time);
      expect(((times.at(-1) ?? 0) - (times[0] ?? 0)) / 99).toBeCloseTo(1000, -1);
    });
  });

  it('leaves out what the converter could not resolve, and says so', async () => {
    await withBoard(async (board) => {
      board.control(`level ${CURRENT_PIN} 1000`);
      await board.until('a trouble', () => board.of('trouble').length >= 1);
      expect(board.of('trouble')[0]).toMatchObject({ channel: 2, trouble: 'over' });
      await board.until('20 samples', () => board.of('sample').length >= 20);
      expect(board.of('sample').at(-1)?.counts[1]).toBeNull();
      expect(board.of('sample').at(-1)?.counts[0]).toBe(0);
    });
  });

  it('tells the wind from the times of its pulses', async () => {
    await withBoard(async (board) => {
      const timer = setInterval(() => board.control(`pulse ${WIND_PIN}`), 20);
      await board.until('a rate', () => (board.of('sample').at(-1)?.counts[2] ?? 0) > 0);
      clearInterval(timer);
      // At most one pulse in 20 ms, less when this computer is busy; never a made-up one.
      expect(board.of('sample').at(-1)?.counts[2]).toBeLessThan(60_000);
      await board.until('that it stands still', () => board.of('sample').at(-1)?.counts[2] === 0);
    });
  });

  it('drops whole lines while nobody reads, and then introduces itself', async () => {
    await withBoard(async (board) => {
      await board.until('10 samples', () => board.of('sample').length >= 10);
      const unread_us = 3_000_000;
      board.control(`unread ${unread_us}`);
      const gapAt = (): number => {
        const numbers = board.of('sample').map(({ sequence }) => sequence);
        return numbers.findIndex((number, index) => number > (numbers[index - 1] ?? number) + 1);
      };
      await board.until('samples after a gap', () => gapAt() > 0);
      const samples = board.of('sample');
      const [last, next] = [samples[gapAt() - 1], samples[gapAt()]];
      // It went on sampling: what came in between was numbered and dropped.
      const dropped = ((next?.sequence ?? 0) - (last?.sequence ?? 0)) * PERIOD_US;
      expect(Math.abs(dropped - unread_us)).toBeLessThan(5 * PERIOD_US);
      // A line that had begun comes to its end, so none is damaged; then it introduces itself.
      expect(board.frames.map(({ kind }) => kind)).not.toContain('fault');
      const again = board.of('opening').find(({ cause }) => cause === 'again');
      const order = [again, next].map((one) => board.frames.findIndex((frame) => frame === one));
      expect(order[0]).toBeGreaterThan(0);
      expect(order[0]).toBeLessThan(order[1] as number);
    });
  });

  it('can be set to speak to a port that does not say what it takes', async () => {
    const silent = 1_000_000_000;
    await withBoard(
      async (board) => {
        board.control(`unread ${silent}`);
        await board.until('60 samples', () => board.of('sample').length >= 60);
      },
      { name: 'untold', defines: '-DPORT_TELLS_ROOM=0' },
    );
  });
});
