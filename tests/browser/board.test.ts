/** The board on the page: what it announced, its pace, and taking a zero. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import type { Status } from '#core/live-messages.ts';
import { LANGUAGES } from '../../web/words/catalogue.ts';
import { startServer } from '../support/server-process.ts';
import { closePage, openPage, SHEETS, type Sheet } from './support/browser.ts';
import { bandWords, overlaps, settleFrames, visibleTexts } from './support/inspect.ts';
import { ANNOUNCED, messagesOf } from './support/scenes.ts';
import { describeOnStand } from './support/stand.ts';

/** A path that has nowhere to break. */
const DEEP = '/home/workshop/experiments-with-a-long-name/stillmark-data';
const LAPTOP: Sheet = SHEETS[1] ?? { name: '1280', width: 1280, height: 720 };

describeOnStand('the board on the page', (stand) => {
  let page: Page;
  let problems: string[];

  const open = async (more: Partial<Status>, sheet = LAPTOP, scene = 'waiting'): Promise<void> => {
    stand.feed.show(...messagesOf(scene, more));
    ({ page, problems } = await openPage(stand.browser, stand.feed.url, { sheet, scheme: 'light' }));
    await page.locator('.band:not([data-stage="connecting"])').waitFor();
    await settleFrames(page);
  };
  const tell = async (more: Partial<Status>): Promise<void> => {
    stand.feed.show(...messagesOf('waiting', more));
    await settleFrames(page);
  };
  const unfold = () => page.getByRole('button', { name: 'The board' }).click();
  const press = (name: string) => page.getByRole('button', { name }).click();
  const panel = async (): Promise<string> =>
    (await page.locator('.board').innerText()).replaceAll('\u202f', ' ');
  const postedTo = (path: string): unknown[] =>
    stand.feed.posted.filter((one) => one.path === path).map(({ body }) => body);

  beforeEach(() => {
    stand.feed.posted.length = 0;
    stand.feed.refuseWith = null;
  });
  afterEach(async () => {
    await closePage(page);
    // Chromium itself tells of an answer that refuses.
    expect(problems.filter((problem) => !problem.includes('409'))).toEqual([]);
  });

  it.each(SHEETS)('unfolds with all that it announced, nothing over another, $name', async (sheet) => {
    const store = { ok: false, message: 'The disk is full.', code: 'disk-full', about: [DEEP] };
    await open({ board: ANNOUNCED, store }, sheet, 'logged');
    expect(await page.locator('.board').count()).toBe(0);
    await unfold();
    const text = await panel();
    for (const part of ['bench-5V, by Own workshop', '31', '1.2', '19.55 mV', '\u221237']) {
      expect(text).toContain(part);
    }
    expect(text).toContain('1, u 0.006');
    expect(text).toContain('1.0025, u not known');
    expect(text).toContain('pulses of the anemometer, not read');
    await press('Take a zero of current');
    for (const language of LANGUAGES) {
      await page.locator('.key-line select').selectOption(language);
      await settleFrames(page);
      expect(overlaps(await visibleTexts(page))).toEqual([]);
      const [width, room] = await page.evaluate(() => [document.body.scrollWidth, innerWidth]);
      expect(width).toBeLessThanOrEqual(room ?? 0);
    }
    expect(await panel()).toContain('Ventilateur arrêté, pales immobiles');
  });

  it.each(SHEETS)('lets numbers without a header be named, $name', async (sheet) => {
    await open({}, sheet, 'unmapped');
    const numbers = page.locator('.naming li');
    expect(await numbers.locator('.number').allInnerTexts()).toEqual([
      '48211',
      '2.314',
      '105.2',
      '4.08',
    ]);
    expect(overlaps(await visibleTexts(page))).toEqual([]);
    const [width, room] = await page.evaluate(() => [document.body.scrollWidth, innerWidth]);
    expect(width).toBeLessThanOrEqual(room ?? 0);
    await page.getByLabel('Number 1').selectOption('time_ms');
    await page.getByLabel('Number 2').selectOption({ label: 'voltage, V' });
    await page.getByLabel('Number 3').focus();
    // Letters choose in the list; they are no commands here.
    await page.keyboard.press('n');
    await page.getByLabel('Number 3').selectOption('current_mA');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    expect(await page.locator(':focus').innerText()).toBe('Read them so');
    await page.keyboard.press('Enter');
    const columns = ['time_ms', 'voltage_V', 'current_mA', ''];
    await expect.poll(() => postedTo('/api/board')).toEqual([{ want: 'columns', columns }]);
    expect(await page.locator('.editor').count()).toBe(0);
  });

  it('keeps the names that were chosen while numbers go on, and shows a refusal', async () => {
    await open({}, LAPTOP, 'unmapped');
    await page.getByLabel('Number 2').selectOption('voltage_V');
    stand.feed.show(...messagesOf('unmapped', { unnamedFields: ['48261', '2.4', '', '4.1'] }));
    await page.getByText('48261').waitFor();
    expect(await page.getByLabel('Number 2').inputValue()).toBe('voltage_V');
    stand.feed.refuseWith = 'Say at least which number is the voltage.';
    await press('Read them so');
    await page.getByText('Say at least which number is the voltage.').waitFor();
  });

  it('says what was named, and lets it be named anew', async () => {
    await open({ namedColumns: ['voltage_V', '', 'wind_mps'] });
    await unfold();
    expect(await panel()).toContain('voltage_V, not used, wind_mps');
    await press('Name them anew');
    await expect.poll(() => postedTo('/api/board')).toEqual([{ want: 'columns', columns: [] }]);
  });

  it('says of a plain board that nothing is written to it', async () => {
    await open({ board: null });
    await unfold();
    expect(await panel()).toContain('plain lines');
    expect(await page.locator('.board button').count()).toBe(0);
  });

  it('sets the pace', async () => {
    await open({ board: ANNOUNCED });
    await unfold();
    await page.getByLabel('Wanted samples a second').fill('50');
    await press('Set');
    await expect.poll(() => postedTo('/api/board')).toEqual([{ want: 'rate', sampleRate_Hz: 50 }]);
  });

  it('offers no pace where the board has but one', async () => {
    const pace = { period_us: 20_000, shortest_us: 20_000, longest_us: 20_000 };
    await open({ board: { ...ANNOUNCED, pace } });
    await unfold();
    expect(await page.getByLabel('Wanted samples a second').count()).toBe(0);
  });

  it('asks before it takes a zero, and a key pressed once too often takes none', async () => {
    await open({ board: ANNOUNCED });
    await unfold();
    await page.getByRole('button', { name: 'Take a zero of current' }).focus();
    await page.keyboard.press('Enter');
    expect(await panel()).toMatch(/Fan off, blades at rest\? Now it reads: current .* mA\./);
    await page.keyboard.press('Enter');
    expect(await page.locator('.zero-question').count()).toBe(0);
    expect(postedTo('/api/board')).toEqual([]);
    await press('Take a zero of current');
    await unfold();
    await unfold();
    expect(await page.locator('.zero-question').count()).toBe(0);
  });

  it('takes it, says that it is under way, and what came of it', async () => {
    await open({ board: ANNOUNCED });
    await unfold();
    await press('Take a zero of current');
    await press('Take it as zero');
    await page.locator('.zero-question').waitFor({ state: 'detached' });
    expect(postedTo('/api/board')).toEqual([{ want: 'zero', channel: 2, sure: false }]);
    const zeroing = (isPending: boolean, message: string | null) =>
      tell({ board: { ...ANNOUNCED, zeroing: { channel: 2, isPending, message } } });
    await zeroing(true, null);
    await expect.poll(panel).toContain('is taking a zero. Leave the fan off.');
    await zeroing(false, 'Zero of current taken: 5 counts.');
    await expect.poll(panel).toContain('Zero of current taken: 5 counts.');
    await expect.poll(panel).toContain('Take it again with the fan off.');
  });

  it('shows a refusal that is no doubt as any other', async () => {
    await open({ board: ANNOUNCED });
    stand.feed.refuseWith = 'A zero is being taken already.';
    await unfold();
    await press('Take a zero of current');
    await press('Take it as zero');
    await page.locator('.notice.alarm', { hasText: 'already' }).waitFor();
  });

  describe('what can not be read', () => {
    const notice = {
      code: 'board-version',
      message: 'The board speaks version 2 of the Stillmark lines, this program version 1.',
    };

    it('is explained in the band, and only there', async () => {
      await open({ notices: [notice] }, LAPTOP, 'unreadable');
      expect(await bandWords(page)).toMatchObject({
        instruction: 'Can’t read the board.',
        moving: notice.message,
      });
      expect(await page.locator('.notice').count()).toBe(0);
      await tell({ notices: [notice] });
      expect(await page.locator('.notice.note').innerText()).toContain('version 2');
    });

    it('because a board of ours has not announced itself yet is said to pass', async () => {
      const board = { ...ANNOUNCED, channels: [], identity: null, pace: null };
      await open({ board }, LAPTOP, 'unmapped');
      expect((await bandWords(page)).moving).toContain('It does so every 10 s.');
    });
  });

  it('takes a zero of the running program only after a second look', async () => {
    const dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-zero-'));
    const server = await startServer('--data', dataFolder, '--source', 'simulated:2', '--speed', '2');
    onTestFinished(async () => {
      await server.kill();
      rmSync(dataFolder, { recursive: true, force: true });
    });
    ({ page, problems } = await openPage(stand.browser, server.url, { sheet: LAPTOP, scheme: 'light' }));
    await unfold();
    expect(await panel()).toContain('virtual rig');
    await page.locator('.band[data-stage="logged"]').waitFor({ timeout: 60_000 });
    await press('Take a zero of voltage');
    await press('Take it as zero');
    await page.locator('.zero-question.hatched', { hasText: 'Is the fan off' }).waitFor();
    expect((await server.status()).board?.channels[0]?.zero).toBe(0);
    await press('They rest: take it as zero');
    await page.locator('.zero-state', { hasText: 'Zero of voltage taken' }).waitFor();
    // The board answers first, and announces the new zero then.
    const zero = async () => (await server.status()).board?.channels[0]?.zero;
    await expect.poll(zero).toBeGreaterThan(0);
  });
});
