/** What the sketches keep up with, what their samples mean, and how they take a host's words. */
import { expect, it, type TestContext } from 'vitest';
import { checksum } from '#protocol/checksum.ts';
import { sketch, type Variant } from '../support/make.ts';
import { startBoard, type EmulatedBoard } from './board.ts';
import { lostBetween, openHost, type Host, type SampleFrame } from './host.ts';
import { CONVERTER_NOISE_MV, NO_DEVIATIONS, wire } from './wiring.ts';

/** The sketch's counts for one millivolt at a converter's pin: 64 for each of 1024 steps. */
const COUNTS_PER_MV = (64 * 1024) / 5000;
const FAST: Variant = { name: 'fast', defines: { BAUD: '1000000UL' } };

interface Bench {
  readonly board: EmulatedBoard;
  readonly host: Host;
}

type Sketch = 'adc-board' | 'monitor-board';

/** Put away when the test has finished. */
async function openBench(test: TestContext, name: Sketch, variant?: Variant): Promise<Bench> {
  const board = await startBoard(await sketch(name, variant));
  test.onTestFinished(board.stop);
  board.do(...wire(NO_DEVIATIONS), 'adc 0 2500', 'adc 1 1000', 'pulses 2 10', 'monitor bus 5000', 'monitor shunt 20');
  const host = await openHost(board);
  test.onTestFinished(host.close);
  return { board, host };
}

async function askPace(host: Host, period_us: number): Promise<string | undefined> {
  const answers = host.of('answer').length;
  host.ask({ kind: 'pace', period_us });
  await host.until(() => host.of('answer').length > answers);
  return host.of('answer').at(-1)?.result;
}

interface Run {
  readonly samples: readonly SampleFrame[];
  readonly lineShare: number;
}

/** What comes in so much board time, once the pace has taken hold. */
async function run({ board, host }: Bench, length_s: number): Promise<Run> {
  await board.pass(0.2);
  const from = host.of('sample').length;
  const before = await board.report();
  await board.pass(length_s);
  const after = await board.report();
  const busy_s = after.line_busy_s - before.line_busy_s;
  return { samples: host.of('sample').slice(from), lineShare: busy_s / (after.time_s - before.time_s) };
}

/** By the board's own clock; a sample of `monitor-board` begins when its loop comes round. */
function expectRate({ samples }: Run, wanted_Hz: number): void {
  const [first, last] = [samples[0]?.time ?? NaN, samples.at(-1)?.time ?? NaN];
  const rate_Hz = (samples.length - 1) / ((last - first) / 1e6);
  expect(Math.abs(rate_Hz / wanted_Hz - 1), `${rate_Hz} samples a second`).toBeLessThan(0.001);
}

function expectWhole({ host }: Bench, { samples }: Run): void {
  expect(lostBetween(samples)).toBe(0);
  expect(host.of('fault')).toEqual([]);
  expect(host.dropped()).toBe(0);
}

export function limits(): void {
  it.for<Sketch>(['adc-board', 'monitor-board'])(
    '%s: 100 samples a second with room to spare, and all that it offers at 115200 Bd',
    async (name, test) => {
      const bench = await openBench(test, name);
      const { host } = bench;
      expect(await askPace(host, 10_000)).toBe('done');
      const steady = await run(bench, 2);
      expectWhole(bench, steady);
      expectRate(steady, 100);
      expect(steady.lineShare).toBeLessThan(0.4);

      const shortest_us = host.of('pace')[0]?.shortest_us ?? NaN;
      expect(await askPace(host, shortest_us)).toBe('done');
      const fastest = await run(bench, 2);
      expectWhole(bench, fastest);
      expectRate(fastest, 1e6 / shortest_us);
      expect(fastest.lineShare).toBeLessThan(0.8);

      expect(await askPace(host, shortest_us - 1)).toBe('range');
      expectRate(await run(bench, 0.5), 1e6 / shortest_us);
    },
  );

  it('adc-board: at 1 MBd the processor is the limit, and it keeps what it offers', async (test) => {
    const bench = await openBench(test, 'adc-board', FAST);
    const shortest_us = bench.host.of('pace')[0]?.shortest_us ?? NaN;
    expect(shortest_us).toBeLessThanOrEqual(2000);
    expect(await askPace(bench.host, shortest_us)).toBe('done');
    const fastest = await run(bench, 1);
    expectWhole(bench, fastest);
    expectRate(fastest, 1e6 / shortest_us);
    expect(fastest.lineShare).toBeLessThan(0.4);
  });
}

export function samples(): void {
  it('resolve parts of a step, and average mains hum out over its periods', async (test) => {
    const bench = await openBench(test, 'adc-board');
    // 500 conversions a second and channel of 2500 mV, just between two steps of 4.9 mV.
    const quiet = statistics(await run(bench, 2));
    expect(Math.abs(quiet.mean_mV - 2500)).toBeLessThan(0.2);
    bench.board.do('hum 50 50');
    const humming = statistics(await run(bench, 2));
    expect(Math.abs(humming.mean_mV - 2500)).toBeLessThan(0.2);
    // 40 conversions to a sample of 20 ms.
    const expected_mV = Math.hypot(CONVERTER_NOISE_MV, STEP_MV / Math.sqrt(12)) / Math.sqrt(40);
    expect(humming.deviation_mV).toBeLessThan(1.5 * expected_mV);
    // What does not fit into 20 ms in whole periods is there: of 30 Hz, sin(0.6π)/0.6π = 0.50.
    bench.board.do('hum 50 30');
    expect(statistics(await run(bench, 2)).deviation_mV).toBeGreaterThan(10);
  });

  it('bear the time of their middle: a ramp is read where it was', async (test) => {
    const { board, host } = await openBench(test, 'adc-board');
    const began_s = await board.reset();
    const from = host.frames.length;
    const ramp = Array.from({ length: 4000 }, (_, index) => ({ at_s: index / 2000, what: `adc 0 ${500 + index}` }));
    const start_s = await board.play(ramp);
    await board.pass(2.5);
    const samples = host.frames.slice(from).flatMap((frame) => (frame.kind === 'sample' ? [frame] : []));
    const late_ms = samples.flatMap(({ time, counts }) => {
      const ramp_s = began_s + time / 1e6 - start_s;
      if (ramp_s < 0.1 || ramp_s > 1.9) return [];
      return [(500 + 2000 * ramp_s - (counts[0] ?? NaN) / COUNTS_PER_MV) / 2];
    });
    expect(late_ms.length).toBeGreaterThan(80);
    // The ramp itself goes in steps of 0.5 ms, and the program's clock starts a moment after it.
    const mean_ms = late_ms.reduce((sum, one) => sum + one, 0) / late_ms.length;
    expect(Math.abs(mean_ms)).toBeLessThan(0.5);
  });
}

export function midStream(): void {
  it('answers what is asked, ignores what is not for it, and loses no sample over it', async (test) => {
    const bench = await openBench(test, 'adc-board');
    const { board, host } = bench;
    await board.pass(0.3);
    // What services send that try whether a new port is a modem; too long; a checksum that is wrong.
    host.write(`AT\r\nATZ\r\n${'x'.repeat(100)}\n$ask,pace,50000*0000\n*IDN?\n`);
    await host.until(() => host.of('opening').some(({ cause }) => cause === 'again'));
    await board.pass(0.5);
    expect(host.of('answer')).toEqual([]);
    expect(host.of('opening').map(({ cause }) => cause)).toEqual(['boot', 'again']);
    expect(host.of('identity').length).toBe(2);

    const unknown = 'ask,whistle,3';
    host.write(`$${unknown}*${checksum(unknown).toString(16).toUpperCase().padStart(4, '0')}\n`);
    await host.until(() => host.of('answer').length > 0);
    expect(host.of('answer')).toEqual([{ kind: 'answer', request: 'other', result: 'unknown' }]);
    expectWhole(bench, { samples: host.of('sample'), lineShare: 0 });
    expect(host.of('pace').every(({ period_us }) => period_us === 20_000)).toBe(true);
  });
}

const STEP_MV = 5000 / 1024;

function statistics({ samples }: Run): { mean_mV: number; deviation_mV: number } {
  const values = samples.map(({ counts }) => (counts[0] ?? NaN) / COUNTS_PER_MV);
  const mean_mV = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean_mV) ** 2, 0);
  return { mean_mV, deviation_mV: Math.sqrt(squares / (values.length - 1)) };
}
