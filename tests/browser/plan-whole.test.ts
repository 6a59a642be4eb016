/** A plan on the built program and its simulated rig: made, carried out and put right on the page. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ExperimentViewSchema, type ExperimentView } from '#core/experiment/view.ts';
import { needsChromium } from '../support/needs.ts';
import { startServer, type ServerProcess } from '../support/server-process.ts';
import { launch, openPage, SHEETS } from './support/browser.ts';

const chromium = needsChromium();
const PATIENCE = { timeout: 60_000 };

chromium.describe('a plan from the form to its trials', () => {
  let dataFolder: string;
  let server: ServerProcess;
  let browser: Browser;
  let page: Page;
  let problems: string[];

  beforeAll(async () => {
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-plan-'));
    server = await startServer(
      ...['--port', '0', '--data', dataFolder, '--source', 'simulated:2', '--speed', '6'],
    );
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

  const experiment = async (): Promise<ExperimentView> => {
    const answer = await fetch(new URL('/api/experiment', server.url));
    return ExperimentViewSchema.parse(await answer.json());
  };
  const doneRuns = async () => (await experiment()).runs.filter(({ trialIds }) => trialIds.length > 0);

  it('takes up the plan that was typed', async () => {
    await page.keyboard.press('q');
    await page.getByRole('button', { name: 'blade angle' }).click();
    await page.locator('[name="factors.0.levels"]').fill('10 25 40');
    await page.locator('[name="rounds"]').fill('2');
    await page.keyboard.press('Enter');
    await page.locator('.rail').waitFor(PATIENCE);
    expect(await page.locator('.cell').count()).toBe(6);
    const { plan, runs } = await experiment();
    expect(plan).toMatchObject({ rounds: 2, design: 'single' });
    expect(await page.locator('.cell').evaluateAll((all) => all.map((one) => one.getAttribute('data-run')))).toEqual(
      runs.map(({ id }) => id),
    );
  });

  it('gives each trial to its run without a touch, and shows it so', async () => {
    await expect.poll(async () => (await doneRuns()).length, PATIENCE).toBeGreaterThan(1);
    const [run] = await doneRuns();
    const id = run?.trialIds[0];
    const row = page.locator(`.row[data-trial="${id}"]`);
    await row.waitFor(PATIENCE);
    const { plan } = await experiment();
    expect(await row.locator('.set').innerText()).toBe(plan?.factors[0]?.levels[run?.levels[0] ?? -1]?.label);
    expect(await page.locator(`.mark[data-trial="${id}"]`).count()).toBe(1);
    await page.locator(`.cell.done[data-run="${run?.id}"]`).waitFor(PATIENCE);
  });

  it('gives a trial to another run, and takes that back', async () => {
    const [run] = await doneRuns();
    const id = run?.trialIds[0];
    await page.locator(`.row[data-trial="${id}"]`).click();
    await page.keyboard.press('u');
    await page.keyboard.press('ArrowRight');
    const wanted = await page.locator('.cell[aria-pressed="true"]').getAttribute('data-run');
    expect(wanted).not.toBe(run?.id);
    await page.keyboard.press('Enter');
    const holder = async () =>
      (await experiment()).runs.find(({ trialIds }) => trialIds.includes(id ?? 0))?.id;
    await expect.poll(holder, PATIENCE).toBe(wanted);
    await page.locator('.undo', { hasText: `moving trial ${id}` }).waitFor(PATIENCE);
    await page.keyboard.press('z');
    await expect.poll(holder, PATIENCE).toBe(run?.id);
  });

  it('covers the answer, and reveals it', async () => {
    await page.keyboard.press('c');
    await page.getByText('What do you expect?').waitFor(PATIENCE);
    await page.getByLabel('Votes for 25°').fill('12');
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await experiment()).predictions, PATIENCE).toEqual({ '25°': 12 });
    expect(await page.locator('.mark').count()).toBe(0);
    await page.getByRole('button', { name: 'Reveal' }).click();
    await page.locator('.tally', { hasText: '12' }).waitFor(PATIENCE);
    expect((await experiment()).isCovered).toBe(false);
  });

  it('breaks no policy and throws no error on the way', () => {
    expect(problems).toEqual([]);
  });
});
