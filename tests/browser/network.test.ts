/** The room's network as people use it: opened on the laptop, and a phone that operates with a pass. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type App } from '../../server/app.ts';
import { needsChromium } from '../support/needs.ts';
import { OWN_ADDRESS } from '../support/own-address.ts';
import { expectAccessible } from './support/accessible.ts';
import { launch, openPage, SHEETS } from './support/browser.ts';

const chromium = needsChromium();
const PATIENCE = { timeout: 60_000 };

chromium.describe('room and phones', () => {
  let dataFolder: string;
  let app: App;
  let browser: Browser;
  let bench: Page;
  let phone: Page;
  const problems: string[] = [];

  const open = async (url: string, width: number): Promise<Page> => {
    const sheet = SHEETS.find((one) => one.width === width);
    if (sheet === undefined) throw new Error('no sheet');
    const opened = await openPage(browser, url, { sheet, scheme: 'light' });
    opened.page.on('console', (message) => {
      if (message.type() === 'error') problems.push(message.text());
    });
    problems.push(...opened.problems);
    return opened.page;
  };

  beforeAll(async () => {
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-network-'));
    app = await startApp({
      dataFolder,
      source: { kind: 'simulated', seed: 2 },
      speed: 4,
      port: 0,
      host: '127.0.0.1',
      addresses: () => [OWN_ADDRESS],
    });
    browser = await launch(chromium.path ?? '');
    bench = await open(app.url, 1280);
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    await app.close();
    rmSync(dataFolder, { recursive: true, force: true });
  });

  const trialIds = async (): Promise<number[]> => {
    const answer = await fetch(new URL('/api/trials', app.url));
    return ((await answer.json()) as { trials: { id: number }[] }).trials.map(({ id }) => id);
  };

  it('is opened on the laptop, which shows where and what leads there', async () => {
    await bench.locator('.network-fold').click();
    await bench.locator('.door').waitFor(PATIENCE);
    expect(await bench.locator('.qr').count()).toBe(0);
    await bench.getByRole('button', { name: `Open ${OWN_ADDRESS.address}` }).click();
    await bench.locator('.door.open .qr').first().waitFor(PATIENCE);
    const { port } = new URL(app.url);
    const led = await bench.locator('.ways .qr').evaluateAll((all) => all.map((one) => one.getAttribute('data-text')));
    const base = `http://${OWN_ADDRESS.address}:${port}`;
    expect(led).toEqual([`${base}/follow`, `${base}/room`]);
    await expectAccessible(bench);
  });

  it('a phone takes up the pass from the picture\u2019s address, after a tap', async () => {
    await bench.locator('input[name="pass"]').fill('Table 2');
    await bench.keyboard.press('Enter');
    const url = await bench.locator('.offered .qr').getAttribute('data-text', PATIENCE);
    phone = await open(url ?? '', 390);
    expect(await phone.locator('[data-action]').count()).toBe(0);
    await phone.getByRole('button', { name: 'Yes, operate' }).click();
    await phone.getByText('Table 2: this phone operates').waitFor(PATIENCE);
    // What was in the address is gone from it, and of no use to a second phone.
    expect(new URL(phone.url()).hash).toBe('');
    await bench.locator('.network-fold', { hasText: 'Table 2 operates' }).waitFor(PATIENCE);
    const second = await open(url ?? '', 390);
    await second.getByRole('button', { name: 'Yes, operate' }).click();
    await second.getByText('This pass is not good').waitFor(PATIENCE);
    expect(await second.locator('[data-action]').count()).toBe(0);
    await second.context().close();
  });

  it('has targets for thumbs, each with a name', async () => {
    const sizes = await phone
      .locator('.operate button')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON()));
    expect(sizes.length).toBeGreaterThan(8);
    for (const { width, height } of sizes) expect(Math.min(width, height)).toBeGreaterThanOrEqual(44);
    await expectAccessible(phone);
  });

  it('logs now', async () => {
    const before = (await trialIds()).length;
    const logNow = phone.locator('[data-action="log"]:enabled');
    await expect
      .poll(
        async () => {
          // What has just been logged by itself is refused, and said to be.
          await logNow.click({ timeout: 2_000 }).catch(() => undefined);
          return phone.locator('.operate [role="status"]').innerText();
        },
        PATIENCE,
      )
      .toBe('Done.');
    await expect.poll(async () => (await trialIds()).length, PATIENCE).toBeGreaterThan(before);
  });

  it('strikes the newest trial with a reason by two taps', async () => {
    await phone.locator('[data-action="strike"]:enabled').click(PATIENCE);
    await phone.getByRole('button', { name: 'Blade slipped' }).click();
    await bench.locator('.row.struck', { hasText: 'struck: Blade slipped' }).waitFor(PATIENCE);
  });

  it('is still an operator after the page was loaded anew', async () => {
    await phone.reload();
    await phone.getByText('Table 2: this phone operates').waitFor(PATIENCE);
  });

  it('only watches once the pass is taken back, and says so', async () => {
    await bench.getByRole('button', { name: 'Take back: Table 2' }).click();
    await phone.getByText('The pass is over').waitFor(PATIENCE);
    expect(await phone.locator('[data-action]').count()).toBe(0);
    await bench.locator('.network-fold', { hasText: 'Room: open' }).waitFor(PATIENCE);
  });

  it('a code that was typed does the same as the picture', async () => {
    await bench.locator('input[name="pass"]').fill('Ana');
    await bench.keyboard.press('Enter');
    const code = await bench.locator('.offered .code').innerText(PATIENCE);
    await phone.getByRole('button', { name: 'I have a code' }).click();
    await phone.locator('input[name="code"]').fill(code.replace(/\D/g, ''));
    await phone.keyboard.press('Enter');
    await phone.getByText('Ana: this phone operates').waitFor(PATIENCE);
  });

  it('closed again, the phone is left without news', async () => {
    await bench.getByRole('button', { name: `Close ${OWN_ADDRESS.address}` }).click();
    await phone.locator('[data-stage="no-news"]').waitFor(PATIENCE);
    await bench.locator('.network-fold', { hasText: /^Room$/ }).waitFor(PATIENCE);
  });

  it('breaks no policy and throws no error on the way', () => {
    // Refusals that were meant, and an address that is closed, are no problems of the page.
    expect(problems.filter((text) => !/ERR_CONNECTION|\b(403|409|412)\b/.test(text))).toEqual([]);
  });
});
