/** The sketch for a board with a current and power monitor on I2C, and the emulated monitor itself. */
import { expect, it } from 'vitest';
import { until } from '../../support/server-process.ts';
import { sketch } from '../support/make.ts';
import { expectTrial } from './agreement.ts';
import { PATIENCE_S, startBoard } from './board.ts';
import { perform } from './rig-score.ts';
import { openStand } from './stand.ts';

const STILL = { wind_mps: 0, length_s: 2 };

export function monitorBoard(): void {
  it('logs the plateaus of a rig with their values', async (test) => {
    const { board, untilTrial } = await openStand(test, { sketch: 'monitor-board' });
    const { score, truth } = perform([STILL, { wind_mps: 4.2, length_s: 15 }, { wind_mps: 3.2, length_s: 15 }, STILL], 1);
    await board.play(score);
    const trials = await untilTrial(2, 'final');
    expect(trials.map(({ state }) => state)).toEqual(['final', 'final']);
    for (const [index, trial] of trials.entries()) expectTrial(trial, truth(index + 1), 'monitor-board');
  });

  it('says that its monitor is missing, takes nothing false, and goes on once it is back', async (test) => {
    const { board, server, page, untilTrial } = await openStand(test, { sketch: 'monitor-board' });
    const before = perform([STILL, { wind_mps: 4.2, length_s: 60 }], 2);
    await board.play(before.score);
    await untilTrial(1, 'logged');

    board.do('monitor absent');
    const isMissing = ({ code }: { code: string }): boolean => code === 'board-missing';
    const { notices } = await until(server.status, (status) => status.notices.some(isMissing), PATIENCE_S);
    expect(notices.find(isMissing)?.message).toMatch(/voltage|current/);
    await until(() => Promise.resolve(page.voltage_V.at(-1)), (newest) => newest === null, PATIENCE_S);
    expect(page.voltage_V.filter((voltage_V) => (voltage_V ?? 0) > 5)).toEqual([]);

    board.do('monitor present');
    const after = perform([STILL, { wind_mps: 3.2, length_s: 15 }, STILL], 3);
    await board.play(after.score);
    const trials = await untilTrial(2, 'final');
    expectTrial(trials[0], before.truth(1), 'monitor-board');
    expectTrial(trials[1], after.truth(1), 'monitor-board');
    expect((await server.status()).faults).toMatchObject({ malformed: 0, checksum: 0, sequenceGap: 0 });
  });
}

/**
 * Worked examples of the data sheet SBOS448F (Texas Instruments, 2011), opened: page 24, table 3,
 * and the power-on values and flags of pages 25 to 30.
 */
export function emulatedMonitor(): void {
  const [CONFIGURATION, SHUNT, BUS, POWER, CURRENT, CALIBRATION] = [0, 1, 2, 3, 4, 5];

  it('holds the registers of the data sheet', async () => {
    const board = await startBoard(await sketch('adc-board'));
    const registers = async (): Promise<number[]> => {
      const values = [];
      for (const number of [SHUNT, BUS, CURRENT, POWER]) values.push(await board.register(number));
      return values;
    };
    expect(await board.register(CONFIGURATION)).toBe(0x399f);
    expect(await registers()).toEqual([0, 0, 0, 0]);

    // 12 V, 10 A through 2 mΩ; current step 1 mA: 0.04096/(0.001·0.002) = 20480. Ready: bit 1.
    board.do(`monitor write ${CONFIGURATION} ${0x019f}`, `monitor write ${CALIBRATION} ${0x5000}`);
    board.do('monitor shunt 20', 'monitor bus 11980', 'monitor convert');
    expect(await registers()).toEqual([0x07d0, 0x5d98 | 2, 0x2710, 0x1766]);
    // Reading the power has taken "ready" back.
    expect(await board.register(BUS)).toBe(0x5d98);

    // Without a calibration neither current nor power; shunt ranges of 40 to 320 mV, both signs.
    board.do(`monitor write ${CONFIGURATION} ${0x8000}`, 'monitor shunt -320', 'monitor bus 33000', 'monitor convert');
    expect(await registers()).toEqual([0x8300, (8000 << 3) | 2, 0, 0]);
    board.do(`monitor write ${CONFIGURATION} ${0x019f}`, 'monitor shunt 50', 'monitor convert');
    expect(await registers()).toEqual([0x0fa0, (4000 << 3) | 2, 0, 0]);

    // Current out of 16 bits: the overflow flag.
    board.do(`monitor write ${CALIBRATION} ${0xfffe}`, 'monitor convert');
    expect(await board.register(BUS)).toBe((4000 << 3) | 3);
    await board.stop();
  });
}
