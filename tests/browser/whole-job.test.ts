/** The built program and its page, as a room sees them: what is logged is what the page shows. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import { packageTarget } from '../../server/carry/package-target.ts';
import { writePackage } from '../../server/carry/write-package.ts';
import { openStoreReader } from '../../server/store/reader.ts';
import { needsChromium } from '../support/needs.ts';
import { experimentInputs, recordSession } from '../support/recorded-session.ts';
import { startServer, until, type ServerProcess } from '../support/server-process.ts';
import { launch, openPage, SHEETS } from './support/browser.ts';

const chromium = needsChromium();
const PATIENCE = { timeout: 60_000 };

chromium.describe('the whole job in a browser', () => {
  let dataFolder: string;
  let server: ServerProcess;
  let browser: Browser;
  let page: Page;
  let problems: string[];

  beforeAll(async () => {
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-browser-'));
    server = await serve('0');
    browser = await launch(chromium.path ?? '');
    const sheet = SHEETS[1] ?? SHEETS[0];
    if (sheet === undefined) throw new Error('no sheet');
    ({ page, problems } = await openPage(browser, server.url, { sheet, scheme: 'light' }));
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    await server.kill();
    rmSync(dataFolder, { recursive: true, force: true });
  });

  const serve = (port: string): Promise<ServerProcess> =>
    startServer('--port', port, '--data', dataFolder, '--source', 'simulated:2', '--speed', '4');
  /** As it was saved on another laptop. */
  async function fileOfAnother(): Promise<string> {
    const there = join(dataFolder, 'there');
    await recordSession(there, 'Blue table', experimentInputs());
    const reader = openStoreReader(there);
    const file = join(there, 'blue-table.zip');
    writePackage(reader, reader.sessions()[0]!, packageTarget(file), { program: '0.0.0', licence: null });
    reader.close();
    return file;
  }
  const row = (id: number) => page.locator(`.trials [data-trial="${id}"]`);

  it('says that it is simulated', async () => {
    await expect.poll(() => page.locator('body').innerText()).toContain('SIMULATED');
  });

  it('shows a trial as logged once it is on disk, with its value and uncertainty', async () => {
    const words = page.locator('[data-stage="logged"] .instruction', { hasText: /^Still. Logged.$/ });
    await words.waitFor(PATIENCE);
    const [trial] = await server.trials();
    const [, value, uncertainty] = /([\d.]+) ± ([\d.]+)/.exec(await row(1).innerText()) ?? [];
    const power_mW = 1000 * (trial?.power_W?.value ?? NaN);
    // The page may be one revision behind the answer, which moves the mean by less than its interval.
    expect(Math.abs(Number(value) - power_mW)).toBeLessThanOrEqual(2 * Number(uncertainty));
    expect(Number(uncertainty)).toBeGreaterThan(0);
    expect(await row(1).innerText()).toContain('simulated');
  });

  it('strikes a trial by keys alone, with a reason, and restores it', async () => {
    await until(server.trials, ([trial]) => trial?.state === 'final', 60);
    await page.locator('body').press('ArrowUp');
    await row(1).click();
    await page.keyboard.press('s');
    await page.keyboard.type('blade slipped');
    await page.keyboard.press('Enter');
    await page.locator('.trials [data-trial="1"].struck').waitFor(PATIENCE);
    expect(await row(1).innerText()).toContain('struck: blade slipped');
    expect((await server.trials())[0]).toMatchObject({ struck: true, strikeReason: 'blade slipped' });
    await page.keyboard.press('s');
    await page.locator('.trials [data-trial="1"]:not(.struck)').waitFor(PATIENCE);
    expect((await server.trials())[0]).toMatchObject({ struck: false, strikeReason: null });
  });

  it('begins a session for the next group, and goes on in the one before', async () => {
    const kept = (await server.trials()).length;
    await page.getByRole('button', { name: 'Sessions' }).click();
    await page.locator('input[name="session"]').fill('Red table');
    await page.keyboard.press('Enter');
    await row(1).waitFor({ ...PATIENCE, state: 'detached' });
    await page.getByRole('button', { name: 'Sessions' }).click();
    await page.locator('.sessions-panel li', { hasText: 'Red table' }).waitFor(PATIENCE);
    await page.locator('input[name="wanted"]').fill('green table');
    await page.getByText('No session has that.').waitFor(PATIENCE);
    await page.locator('input[name="wanted"]').fill('');
    await page.locator('.sessions-panel').getByRole('button', { name: 'Go on in it' }).click();
    await row(kept).waitFor(PATIENCE);
    expect((await server.trials()).length).toBeGreaterThanOrEqual(kept);
  });

  it('takes in what another laptop has saved, plays it, and goes on where it was', async () => {
    const live = (await server.trials()).length;
    await page.getByRole('button', { name: 'Sessions' }).click();
    await page.locator('input[name="session-file"]').setInputFiles(await fileOfAnother());
    const panel = page.locator('.sessions-panel');
    await panel.getByText('Taken in: Blue table.').waitFor(PATIENCE);
    const kept = panel.locator('li', { hasText: 'Blue table' });
    await kept.getByRole('button', { name: 'Start from its plan' }).click();
    const question = page.locator('.plan-form [name="question"]');
    await expect.poll(() => question.inputValue()).toBe(anglePlan(3).question);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Sessions' }).click();
    await kept.getByRole('button', { name: 'as fast as it goes' }).click();
    await until(server.status, ({ port }) => port.phase === 'ended', 60);
    const played = await server.trials();
    expect(played.length).toBeGreaterThan(1);
    await row(played.length).waitFor(PATIENCE);
    await row(played.length + 1).waitFor({ ...PATIENCE, state: 'detached' });
    expect(await page.locator('body').innerText()).toContain('Blue table');
    await panel.getByRole('button', { name: 'End the replay' }).click();
    await until(server.status, ({ playing }) => playing === null, 60);
    await panel.getByRole('button', { name: 'End the replay' }).waitFor({ ...PATIENCE, state: 'detached' });
    await row(live).waitFor(PATIENCE);
  });

  it('says within seconds that the server has gone, and takes up again by itself', async () => {
    const { port } = new URL(server.url);
    await server.kill();
    await page.locator('[data-stage="no-news"]').waitFor(PATIENCE);
    expect(await page.locator('body').innerText()).toContain('No news');
    server = await serve(port);
    await page.locator('[data-stage]:not([data-stage="no-news"])').waitFor(PATIENCE);
    await row(1).waitFor(PATIENCE);
    const next = (await server.trials()).length + 1;
    await row(next).waitFor(PATIENCE);
  });

  it('breaks no policy and throws no error on the way', () => {
    // While the server was gone its address refused connections: that alone is no problem of the page.
    expect(problems.filter((text) => !text.includes('ERR_CONNECTION_REFUSED'))).toEqual([]);
  });
});
