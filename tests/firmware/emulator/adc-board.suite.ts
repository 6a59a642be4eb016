/**
 * The sketch for a board with a converter of its own, as machine code on the emulated board, read by
 * the real server over a serial port.
 */
import { expect, it } from 'vitest';
import { runCommand, until } from '../../support/server-process.ts';
import { expectNear, expectTrial } from './agreement.ts';
import { PATIENCE_S } from './board.ts';
import { perform } from './rig-score.ts';
import { openStand } from './stand.ts';
import { CONVERTER_BUDGET, expectedError } from './wiring.ts';

const STILL = { wind_mps: 0, length_s: 2 };
const STRIKE_PIN = 5;
/** The sketch sends 64 counts for each of the converter's 1024 steps. */
const COUNTS_PER_STEP = 64;
const COUNTS_PER_V = (1024 * COUNTS_PER_STEP) / 5;

export function adcBoard(): void {
  it('logs the plateaus of a rig with their values', async (test) => {
    const { board, server, dataFolder, untilTrial } = await openStand(test, { sketch: 'adc-board' });
    const stages = [STILL, { wind_mps: 4.2, length_s: 14 }, { wind_mps: 3.2, length_s: 14 }, { wind_mps: 5, length_s: 14 }, STILL];
    const { score, truth } = perform(stages, 1);
    await board.play(score);
    const trials = await untilTrial(3, 'final');
    expect(trials.map(({ state }) => state)).toEqual(['final', 'final', 'final']);
    for (const [index, trial] of trials.entries()) expectTrial(trial, truth(index + 1), 'adc-board');
    expect(trials.every(({ origin, simulated }) => origin === 'board' && !simulated)).toBe(true);

    const { board: announced, faults, health } = await server.status();
    expect(announced?.identity?.model).toBe('adc-board');
    expect(health).toBe('reading');
    // Missing at the start alone: a wind speed takes two pulses to be known.
    expect(faults).toMatchObject({ malformed: 0, checksum: 0, tooLong: 0, fieldCount: 0, sequenceGap: 0 });

    expect(await server.stop()).toBe(0);
    const replayed = await runCommand('replay', '--data', dataFolder);
    expect(replayed.code, replayed.stdout).toBe(0);
  });

  it('is off by what its parts are off by, and says so in its uncertainty', async (test) => {
    const deviations = { divider: 0.013, shunt: -0.01, amplifier: 0.005, reference: -0.03 };
    const { board, server, untilTrial } = await openStand(test, { sketch: 'adc-board', deviations });
    const { score, truth } = perform([STILL, { wind_mps: 4.2, length_s: 14 }, STILL], 2, deviations);
    await board.play(score);
    const [trial] = await untilTrial(1, 'final');
    const error = expectedError(deviations);
    const { voltage_V, current_A } = truth(1);
    expectNear(trial?.voltage_V, voltage_V * (1 + error.voltage), CONVERTER_BUDGET['adc-board'].voltage_V);
    expectNear(trial?.current_A, current_A * (1 + error.current), CONVERTER_BUDGET['adc-board'].current_A);
    const channels = (await server.status()).board?.channels ?? [];
    for (const [index, off] of [error.voltage, error.current].entries()) {
      expect(Math.abs(off)).toBeLessThan(2 * (channels[index]?.gainUncertainty ?? 0));
    }
  });

  it('logs one plateau across the wrap of its clock, and strikes it by a button', async (test) => {
    const beforeWrap_s = 11;
    const variant = { name: 'wrap', defines: { STILLMARK_CLOCK_START_US: `${2 ** 32 - beforeWrap_s * 1e6}UL` } };
    const { board, server, untilTrial } = await openStand(test, { sketch: 'adc-board', variant });
    const wrapAt_s = (await board.reset()) + beforeWrap_s;
    const { score, truth } = perform([STILL, { wind_mps: 4.2, length_s: 16 }, STILL], 3);
    const start_s = await board.play(score);
    expect(wrapAt_s - start_s, 'the clock wraps in mid-plateau').toBeGreaterThan(7);
    const trials = await untilTrial(1, 'final');
    expect(trials.length).toBe(1);
    expectTrial(trials[0], truth(1), 'adc-board');
    expect((trials[0]?.end_s ?? 0) - (trials[0]?.start_s ?? 0)).toBeGreaterThan(11);

    await board.press(STRIKE_PIN);
    await until(server.trials, ([trial]) => trial?.struck === true, PATIENCE_S);
    // The board says it twice; the second time is no second press.
    const { notices } = await server.status();
    expect(notices.find(({ code }) => code === 'button-press')?.message).toContain('trial 1 is struck. ');
  });

  it('obeys the server in mid-stream: rate, zero; and tells what is over its range', async (test) => {
    const { board, server, page, want } = await openStand(test, { sketch: 'adc-board' });
    await until(server.status, ({ board: known }) => known?.pace?.period_us === 10_000, PATIENCE_S);

    // An amplifier that is off by 12 mV: 1.2 mA though nothing flows.
    board.do('adc 0 0', 'adc 1 12');
    await page.untilCurrent((current_A) => Math.abs(current_A - 0.0012) < 0.0001);
    await want({ want: 'zero', channel: 2, sure: true });
    await until(server.status, ({ board: known }) => known?.zeroing?.isPending === false, PATIENCE_S);
    await page.untilCurrent((current_A) => Math.abs(current_A) < 0.0001);
    const zero = (await server.status()).board?.channels[1]?.zero ?? 0;
    expect(Math.abs(zero - 0.012 * COUNTS_PER_V)).toBeLessThan(0.1 * COUNTS_PER_STEP);

    await want({ want: 'rate', sampleRate_Hz: 40 });
    await until(server.status, ({ board: known }) => known?.pace?.period_us === 25_000, PATIENCE_S);

    board.do('adc 0 5200');
    const isOver = ({ code }: { code: string }): boolean => code === 'board-over';
    const { notices, faults } = await until(server.status, (status) => status.notices.some(isOver), PATIENCE_S);
    expect(notices.find(isOver)?.message).toContain('voltage');
    expect(faults).toMatchObject({ malformed: 0, checksum: 0, tooLong: 0, fieldCount: 0 });
  });
}
