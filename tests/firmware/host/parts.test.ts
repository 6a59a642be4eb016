/** The small parts that sketches are made of, in a time that the test makes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { needsFirmwareTools } from '../../support/needs.ts';
import { answersOf, SEED, SEEDED } from './programs.ts';

const SECOND_US = 1_000_000;
const SPAN = 2 ** 32;
/** What board.cpp takes for a bounce. */
const DEAD_TIME_US = 2000;

interface Step {
  readonly at_us: number;
  readonly what: string;
}

/** Plays steps in order of time, from a clock that starts at `start_us`; one answer a question. */
async function play(steps: readonly Step[], start_us = 0): Promise<string[]> {
  const inOrder = [...steps].sort((a, b) => a.at_us - b.at_us);
  return answersOf(
    'board',
    inOrder.map(({ at_us, what }) => {
      const [word, ...rest] = what.split(' ');
      return [word, (start_us + at_us) % SPAN, ...rest].join(' ');
    }),
  );
}

function every(period_us: number, from_us: number, to_us: number, what: string): Step[] {
  const steps: Step[] = [];
  for (let at_us = from_us; at_us < to_us; at_us += period_us) {
    steps.push({ at_us: Math.round(at_us), what });
  }
  return steps;
}

const UNKNOWN = -1;

needsFirmwareTools().describe('parts of the firmware', () => {
  describe('pulse rate', () => {
    it('is unknown at first, and zero once nothing came for two seconds', async () => {
      const rates = (await play(every(100_000, 0, 4 * SECOND_US, 'rate'))).map(Number);
      expect(rates).toEqual([...Array(20).fill(UNKNOWN), ...Array(20).fill(0)]);
    });

    const rates_Hz = [0.6, 1, 3.7, 37, 123.4, 450];
    it.each(rates_Hz)('is right to one part in two thousand at %f Hz', async (rate_Hz) => {
      // Pulse times are whole microseconds, the rate is a whole number of thousandths.
      const pulses = every(SECOND_US / rate_Hz, 1000, 10 * SECOND_US, 'pulse');
      const looks = every(20_000, 10, 10 * SECOND_US, 'rate');
      const rates = (await play([...pulses, ...looks], SPAN - 7 * SECOND_US)).map(Number);
      for (const rate_mHz of rates.slice(rates.length / 2)) {
        expect(Math.abs(rate_mHz / 1000 / rate_Hz - 1)).toBeLessThan(0.0005 + 0.001 / rate_Hz);
      }
    });

    it('falls as soon as a pulse is late, and starts anew after standing still', async () => {
      const looks = every(100_000, 10, 12 * SECOND_US, 'rate');
      const turning = every(100_000, 0, 5 * SECOND_US, 'pulse');
      const again = every(100_000, 9 * SECOND_US, 12 * SECOND_US, 'pulse');
      const rates = (await play([...turning, ...looks, ...again])).map(Number);
      const at = (time_s: number): number => rates[time_s * 10] as number;
      expect(at(4)).toBe(10_000);
      // The last pulse came at 4.9 s: one pulse in that time is the most that can be.
      expect(at(5.9)).toBe(Math.floor(1e9 / 1_000_010));
      expect(at(7)).toBe(0);
      expect(at(9)).toBe(0);
      expect(at(11)).toBe(10_000);
    });

    it('does not count what bounces', async () => {
      const bouncing = [0, 300, 900, DEAD_TIME_US - 1].flatMap((late_us) =>
        every(50_000, 1000 + late_us, 4 * SECOND_US, 'pulse'),
      );
      const rates = await play([...bouncing, ...every(20_000, 10, 4 * SECOND_US, 'rate')]);
      expect(rates.at(-1)).toBe('20000');
    });
  });

  describe('button contact', () => {
    it('is one press for each touch, however it bounces', async () => {
      const open = every(1000, 0, 100_000, 'contact 0');
      const bounces = [1, 0, 1, 1, 0, 0, 1].map((closed, index) => ({
        at_us: 100_000 + 700 * index,
        what: `contact ${closed}`,
      }));
      const held = every(1000, 106_000, 500_000, 'contact 1');
      const released = every(1000, 500_000, 700_000, 'contact 0');
      const second = every(1000, 700_000, 800_000, 'contact 1');
      const steps = [...open, ...bounces, ...held, ...released, ...second];
      const answers = await play(steps, SPAN - 300_000);
      expect(answers.filter((answer) => answer === '1')).toHaveLength(2);
      expect(answers.indexOf('1')).toBe(100);
    });

    it('is no press when it was closed from the start', async () => {
      const answers = await play(every(1000, 0, SECOND_US, 'contact 1'));
      expect(answers).not.toContain('1');
    });
  });

  describe('interval', () => {
    it('keeps the mean rate, however irregularly it is looked at', async () => {
      const looks = fc.sample(fc.integer({ min: 50, max: 9000 }), { numRuns: 5000, seed: SEED });
      let now_us = 0;
      const steps = [{ at_us: 0, what: 'interval' }];
      for (const wait_us of looks) steps.push({ at_us: (now_us += wait_us), what: 'look 20000' });
      const start_us = SPAN - SECOND_US;
      const answers = (await play(steps, start_us)).filter((answer) => answer !== '-');
      expect(answers.length, SEEDED).toBe(Math.floor(now_us / 20_000));
      answers.forEach((answer, index) => {
        const [sequence, middle_us] = answer.split(' ').map(Number) as [number, number];
        expect(sequence).toBe(index);
        // It ends at a look, up to 9 ms after its time on the grid, and so did the one before.
        const sinceStart_us = (middle_us - start_us + SPAN) % SPAN;
        const late_us = sinceStart_us - (index + 0.5) * 20_000;
        expect(late_us).toBeGreaterThanOrEqual(-1);
        expect(late_us).toBeLessThanOrEqual(9000);
      });
    });

    it('begins a new grid after a long wait', async () => {
      const looks = [20_000, 95_000, 100_000, 114_999, 115_000];
      const steps = looks.map((at_us) => ({ at_us, what: 'look 20000' }));
      expect(await play([{ at_us: 0, what: 'interval' }, ...steps])).toEqual([
        '0 10000',
        '1 57500',
        '-',
        '-',
        '2 105000',
      ]);
    });
  });
});
