/** What goes wrong on the way from the board to the server, and what must not come of it. */
import { expect, it } from 'vitest';
import { until } from '../../support/server-process.ts';
import { expectTrial } from './agreement.ts';
import { PATIENCE_S } from './board.ts';
import { perform } from './rig-score.ts';
import { openStand } from './stand.ts';

/** What a supply that sags makes of a line: high bytes, controls, the middle of a sample. */
const GARBAGE = Buffer.from('\xff\x00\xfe\x80s,17,3\x00\xc19960,512,\r\n\x7f\xff\xff', 'latin1').toString('hex');
const STILL = { wind_mps: 0, length_s: 2 };
/** Three times the pin's voltage, and far wider than the noise of a sample (1.4 mV). */
const VOLTAGE_V = 3;
const NOISE_LIMIT_V = 0.02;

export function line(): void {
  it('keeps a trial through garbage, interrupts it at a reset, and logs what follows', async (test) => {
    const { board, server, untilTrial } = await openStand(test, { sketch: 'adc-board' });
    const { score, truth } = perform([STILL, { wind_mps: 4.2, length_s: 26 }, STILL], 5);
    await board.play(score);
    await untilTrial(1, 'logged');
    board.do(`bytes ${GARBAGE}`);
    const { faults } = await until(server.status, (status) => status.faults.malformed > 0, PATIENCE_S);
    expect(faults.malformed + faults.checksum).toBeLessThanOrEqual(3);
    expect((await server.trials())[0]?.state).toBe('logged');

    // The supply breaks down: garbage, then the program begins anew.
    board.do(`bytes ${GARBAGE}`);
    await board.reset();
    await untilTrial(1, 'interrupted');
    const trials = await untilTrial(2, 'final');
    expect(trials.map(({ state, recorded }) => ({ state, recorded }))).toEqual([
      { state: 'interrupted', recorded: true },
      { state: 'final', recorded: true },
    ]);
    for (const trial of trials) expectTrial(trial, truth(1), 'adc-board');
    expect((await server.status()).board?.pace?.period_us).toBe(10_000);
  });

  it('loses whole lines where the line is slow, counts them, and takes nothing false', async (test) => {
    const { board, server, page } = await openStand(test, { sketch: 'adc-board' });
    board.do(`adc 0 ${(1000 * VOLTAGE_V) / 3}`, 'adc 1 500');
    await page.untilCurrent((current_A) => Math.abs(current_A - 0.05) < 0.001);
    const before = page.voltage_V.length;

    // The transmitter gets rid of 580 bytes a second where the samples make 4000.
    board.do('line slow 20');
    await board.pass(1.5);
    board.do('line open');
    const slow = await until(server.status, ({ faults }) => faults.sequenceGap > 0, PATIENCE_S);
    expect(slow.faults).toMatchObject({ malformed: 0, checksum: 0, tooLong: 0, fieldCount: 0 });

    // Nobody takes what the bridge has: bytes are gone, from the middle of a line to another's.
    board.do('line cut');
    await board.pass(0.3);
    board.do('line open');
    expect((await board.report()).lost).toBeGreaterThan(500);
    const cut = await until(server.status, ({ faults }) => faults.sequenceGap > slow.faults.sequenceGap, PATIENCE_S);
    expect(cut.faults.malformed + cut.faults.checksum).toBeLessThanOrEqual(2);

    await until(() => Promise.resolve(page.voltage_V.length), (count) => count > before + 200, PATIENCE_S);
    const seen = page.voltage_V.slice(before);
    expect(seen.filter((voltage_V) => Math.abs((voltage_V ?? 0) - VOLTAGE_V) > NOISE_LIMIT_V)).toEqual([]);
  });
}
