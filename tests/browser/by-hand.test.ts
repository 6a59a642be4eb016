/**
 * A whole small plan without a board on the built program: readings keyed in by keyboard alone, a
 * table brought in, the page loaded again and the program killed in between.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ExperimentViewSchema, type ExperimentView } from '#core/experiment/view.ts';
import { TrialsResponseSchema, type TrialView } from '#core/live-messages.ts';
import { needsChromium } from '../support/needs.ts';
import { startServer, type ServerProcess } from '../support/server-process.ts';
import { expectAccessible } from './support/accessible.ts';
import { launch, openPage, SHEETS } from './support/browser.ts';
import { settleFrames } from './support/inspect.ts';

const chromium = needsChromium();
const PATIENCE = { timeout: 60_000 };

chromium.describe('without a board', () => {
  let dataFolder: string;
  let server: ServerProcess;
  let browser: Browser;
  let page: Page;
  let problems: string[];

  beforeAll(async () => {
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-by-hand-'));
    server = await startServer('--port', '0', '--data', dataFolder, '--source', 'simulated:1');
    browser = await launch(chromium.path ?? '');
    const sheet = SHEETS[1];
    if (sheet === undefined) throw new Error('no sheet');
    ({ page, problems } = await openPage(browser, server.url, { sheet, scheme: 'light' }));
    await page.locator('.band:not([data-stage="connecting"])').waitFor(PATIENCE);
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    await server.kill();
    rmSync(dataFolder, { recursive: true, force: true });
  });

  const ask = async (path: string): Promise<unknown> =>
    (await fetch(new URL(path, server.url))).json();
  const experiment = async (): Promise<ExperimentView> =>
    ExperimentViewSchema.parse(await ask('/api/experiment'));
  const trials = async (): Promise<TrialView[]> =>
    TrialsResponseSchema.parse(await ask('/api/trials')).trials;
  const field = (name: string) => page.locator(`[name="${name}"]`);
  const problem = (name: string) => page.locator(`[id="problem-${name}"]`);
  const focused = () => page.evaluate('document.activeElement.name');
  /** Each followed by Tab, as a person goes from field to field. */
  const typeOn = async (...texts: string[]): Promise<void> => {
    for (const text of texts) {
      await page.keyboard.type(text);
      await page.keyboard.press('Tab');
    }
  };

  it('a session of its own is offered where the rig is simulated', async () => {
    await page.keyboard.press('k');
    await page.getByRole('button', { name: 'Begin it' }).focus();
    await page.keyboard.press('Enter');
    await page.locator('.band[data-stage="meters"]').waitFor(PATIENCE);
    expect(await page.locator('.film-edge').count()).toBe(0);
  });

  it('the meters are said once, and a reading beyond their range is told at its field', async () => {
    await page.keyboard.press('Escape');
    const levels = [10, 25].map((value) => ({ label: `${value}°`, value }));
    const plan = {
      question: 'Which angle gives the most power?',
      factors: [{ kind: 'angle', key: 'angle_deg', name: 'Blade angle', levels }],
      ...{ design: 'single', rounds: 2, order: 'listed', seed: 1 },
    };
    const headers = { 'content-type': 'application/json' };
    const body = JSON.stringify({ say: 'plan', plan });
    await fetch(new URL('/api/experiment', server.url), { method: 'POST', headers, body });
    await page.locator('.rail').waitFor(PATIENCE);
    await page.keyboard.press('k');
    await field('meters.voltage.range').focus();
    await typeOn('20', '0.01', '0,5', '2', '', '200', '0.1', '1', '3', '');
    // Past the button for a wind meter.
    await page.keyboard.press('Tab');
    expect(await focused()).toBe('readings.0.voltage');
    await typeOn('2,31');
    await page.keyboard.type('431');
    await page.keyboard.press('Enter');
    await problem('readings.0.current').waitFor();
    expect(await problem('readings.0.current').innerText()).toContain('more than this range shows');
    expect(await trials()).toEqual([]);
  });

  it('what was typed is still there after the page was loaded again', async () => {
    await page.reload();
    await page.locator('.band[data-stage="meters"]').waitFor(PATIENCE);
    await page.keyboard.press('k');
    expect(await field('readings.0.voltage').inputValue()).toBe('2,31');
    expect(await field('readings.0.current').inputValue()).toBe('431');
    await field('readings.0.current').fill('1,234');
    await page.keyboard.press('Tab');
    expect(await problem('readings.0.current').innerText()).toContain('could be 1.234 or 1234');
    await field('readings.0.current').fill('forty');
    await page.keyboard.press('Enter');
    expect(await problem('readings.0.current').innerText()).toContain('is not a number');
    await expectAccessible(page);
  });

  it('a plan is keyed in to its end, and goes on by itself', async () => {
    await field('readings.0.current').focus();
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('43,1');
    await page.keyboard.press('Enter');
    await page.locator('.row[data-trial="1"]').waitFor(PATIENCE);
    // The trial may come over the feed before the answer to what was keyed in.
    await expect.poll(focused).toBe('readings.0.voltage');
    await page.locator('.cell.now[data-run="r1 angle_deg=25"]').waitFor(PATIENCE);
    await typeOn('1.88', '39.0', '1.90', '39.2');
    await page.keyboard.press('Enter');
    await page.locator('.row[data-trial="2"]').waitFor(PATIENCE);
    const [first, second] = await trials();
    expect(first).toMatchObject({
      runId: 'r1 angle_deg=10',
      factors: { angle_deg: 10 },
      origin: 'keyed',
      sampleCount: 1,
      simulated: false,
      voltage_V: { value: 2.31 },
      current_A: { value: 0.0431 },
    });
    expect(second).toMatchObject({ runId: 'r1 angle_deg=25', sampleCount: 2 });
    expect(await page.locator('.row[data-trial="1"] .state').innerText()).toContain('one reading');
    expect(await page.locator('.mark[data-trial="1"] .by-hand').count()).toBe(1);
  });

  it('a trial can be struck and that be taken back', async () => {
    await page.keyboard.press('Escape');
    await page.locator('.row[data-trial="2"]').click();
    await page.keyboard.press('s');
    await page.keyboard.type('wrong range');
    await page.keyboard.press('Enter');
    await page.locator('.row.struck[data-trial="2"]').waitFor(PATIENCE);
    expect((await experiment()).runId).toBe('r1 angle_deg=25');
    await page.keyboard.press('z');
    await page.locator('.row[data-trial="2"]:not(.struck)').waitFor(PATIENCE);
  });

  it('a meter that was read wrongly is put right in all trials, and that taken back', async () => {
    const before = await trials();
    await page.locator('.row[data-trial="1"] .why').click();
    await page.locator('[data-action="correct"]').click();
    await page.locator('.correct [name="what"]').selectOption('current_A');
    await page.locator('.correct [name="truly"]').fill('0');
    await page.keyboard.press('Enter');
    expect(await problem('truly').innerText()).toContain('not 0');
    // In the unit that is shown, and in the decimals of half of Europe.
    await page.locator('.correct [name="truly"]').fill('21,55');
    await page.locator('.correct [name="within"]').fill('0');
    expect(await problem('within').innerText()).toContain('more than 0');
    await page.locator('.correct [name="within"]').fill('2 %');
    await page.locator('.correct [role="status"]', { hasText: 'Known to ±2.0' }).waitFor(PATIENCE);
    await expectAccessible(page);
    await page.keyboard.press('Enter');
    await page.locator('.row[data-trial="2"] .state', { hasText: 'put right' }).waitFor(PATIENCE);
    const [first, second] = await trials();
    expect(first?.current_A?.value).toBeCloseTo(0.02155, 12);
    expect(second?.power_W?.value).toBeCloseTo((before[1]?.power_W?.value ?? NaN) / 2, 12);
    expect(second?.correction?.measured.power_W).toEqual(before[1]?.power_W);
    expect(second?.correction?.by.current_A?.knownTo).toMatchObject({ of: 'gain', distribution: 'rectangular' });
    await page.locator('.budget', { hasText: 'what it was put right by' }).waitFor(PATIENCE);
    await page.keyboard.press('Escape');
    await page.keyboard.press('z');
    await expect.poll(async () => (await trials())[0]?.correction).toBeNull();
    expect((await trials())[1]?.power_W).toEqual(before[1]?.power_W);
  });

  it('a level that was another one is renamed in the plan and in its trials', async () => {
    await page.locator('.row[data-trial="2"] .why').click();
    await page.locator('[data-action="correct"]').click();
    await page.locator('.correct [name="what"]').selectOption('angle_deg');
    await page.locator('.correct [name="truly"]').fill('10');
    await page.keyboard.press('Enter');
    await page.locator('.notice', { hasText: 'move the trials' }).waitFor(PATIENCE);
    await page.locator('.correct [name="truly"]').fill('28');
    await page.keyboard.press('Enter');
    await page.locator('.cell[data-run="r1 angle_deg=28"]').waitFor(PATIENCE);
    expect((await trials())[1]?.factors).toEqual({ angle_deg: 28 });
    await page.keyboard.press('Escape');
    await page.keyboard.press('z');
    await page.locator('.cell[data-run="r1 angle_deg=25"]').waitFor(PATIENCE);
    expect((await trials())[1]?.factors).toEqual({ angle_deg: 25 });
  });

  it('all of it is there after the program was killed, and goes on', async () => {
    const { port } = new URL(server.url);
    await server.kill();
    server = await startServer('--port', port, '--data', dataFolder, '--source', 'meters');
    await page.locator('.band[data-stage="meters"]').waitFor(PATIENCE);
    await page.locator('.row[data-trial="2"]').waitFor(PATIENCE);
    expect(await experiment()).toMatchObject({
      runId: 'r2 angle_deg=10',
      meters: { current: { unit: 'mA', range: 0.2 } },
    });
  });

  it('a table is looked at before anything of it is brought in', async () => {
    await page.keyboard.press('t');
    await expect.poll(focused).toBe('table-file');
    const table = [
      'angle_deg,voltage_V,current_mA,u_voltage_V,u_current_mA,note',
      '10,2.29,42.8,0.02,0.4,"late, but done"',
      '25,1.91,39.1,,,',
      '25,many,39.1,,,',
      '10,2.31,43.1,,,',
    ].join('\n');
    const file = { name: 'paper.csv', mimeType: 'text/csv', buffer: Buffer.from(table) };
    await field('table-file').setInputFiles(file);
    await page.locator('tr[data-line="2"]', { hasText: 'Round 2, 10°' }).waitFor();
    expect(await page.locator('tr[data-line="3"]').innerText()).toContain('± –');
    expect(await page.locator('tr[data-line="5"]').innerText()).toContain('here already, trial 1');
    expect(await page.locator('.table-problems').innerText()).toContain('Line 4: voltage_V: “many”');
    expect(await trials()).toHaveLength(2);
    await settleFrames(page);
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Bring in 2 and leave out 1 line' }).click();
    await page.locator('.row[data-trial="4"]').waitFor(PATIENCE);
    expect((await trials()).slice(2)).toMatchObject([
      { origin: 'imported', runId: 'r2 angle_deg=10', note: 'late, but done' },
      { origin: 'imported', runId: 'r2 angle_deg=25', power_W: { standardUncertainty: null } },
    ]);
    expect((await experiment()).step).toBe('finished');
  });

  it('the same table once more is known, and the import is undone as a whole', async () => {
    await page.keyboard.press('t');
    await field('table').fill('angle_deg,voltage_V,current_mA\n10,2.29,42.8\n');
    await page.getByText('There is nothing to bring in.').waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('z');
    await page.locator('.row.struck[data-trial="3"]').waitFor(PATIENCE);
    expect((await trials()).map(({ struck }) => struck)).toEqual([false, false, true, true]);
  });

  it('breaks no policy and throws no error on the way', () => {
    // While the program is not there the page tries again, which the browser tells of, as it does of
    // what was refused.
    const told = /WebSocket|ERR_|409/;
    expect(problems.filter((one) => !told.test(one))).toEqual([]);
  });
});
