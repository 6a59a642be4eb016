/** The page and its feed: silence, cut connections, sleep, other recordings, wrong messages. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { PageMessageSchema } from '#core/live-messages.ts';
import { closePage, openPage, SHEETS, type Sheet } from './support/browser.ts';
import { powerFigure, settleFrames } from './support/inspect.ts';
import { NOW_S } from './support/scene-samples.ts';
import { messagesOf, SCENES, status, trial } from './support/scenes.ts';
import { describeOnStand } from './support/stand.ts';

describeOnStand('the page and its feed', (stand) => {
  const [, LAPTOP, PHONE] = SHEETS;
  if (LAPTOP === undefined || PHONE === undefined) throw new Error('no sheet');
  const withPage = async (
    name: string,
    use: (page: Page) => Promise<void>,
    sheet: Sheet = LAPTOP,
  ): Promise<void> => {
    stand.feed.show(...messagesOf(name));
    const { page } = await openPage(stand.browser, stand.feed.url, { sheet, scheme: 'light' });
    await page.locator('.band:not([data-stage="connecting"])').waitFor();
    await use(page);
    await closePage(page);
  };
  const stage = (page: Page, name: string) => page.locator(`.band[data-stage="${name}"]`).waitFor();
  const logged = SCENES['logged'];
  if (!logged?.judgement) throw new Error('the scene has no judgement');
  const { judgement } = logged;

  it('says so when no news comes, shows nothing that looks alive, and takes up again', () =>
    withPage('logged', async (page) => {
      expect((await powerFigure(page)).text).toBe('243');
      stand.feed.fallSilent();
      await stage(page, 'no-news');
      expect((await powerFigure(page)).text).toBe('–––');
      expect(await page.locator('.words .moving').innerText()).toMatch(
        /Nothing from the laptop for \d+\ss\. Trying again\./,
      );
      expect(await page.locator('.row[data-trial="9"]').count()).toBe(1);
      stand.feed.show(...messagesOf('logged'));
      await stage(page, 'logged');
      expect((await powerFigure(page)).text).toBe('243');
    }));

  it('comes back by itself when the connection is cut', () =>
    withPage('logged', async (page) => {
      stand.feed.cut();
      stand.feed.show(...messagesOf('settling'));
      await stage(page, 'settling');
      expect(await page.locator('.row[data-trial]').count()).toBe(8);
    }));

  it('asks when it is quiet, so that a quiet bench is no dead one; only what the program knows', () =>
    withPage('no-board', async (page) => {
      stand.feed.asked.length = 0;
      await expect.poll(() => stand.feed.asked.length, { timeout: 10_000 }).toBeGreaterThan(1);
      for (const text of stand.feed.asked)
        expect(PageMessageSchema.safeParse(JSON.parse(text)).success).toBe(true);
      await stage(page, 'no-board');
    }));

  it('drops live frames while hidden, and asks for the whole picture when it is seen again', () =>
    withPage('settling', async (page) => {
      const setHidden = (hidden: boolean) =>
        page.evaluate((value) => {
          Object.defineProperty(document, 'hidden', { configurable: true, get: () => value });
          document.dispatchEvent(new Event('visibilitychange'));
        }, hidden);
      await setHidden(true);
      stand.feed.send({ type: 'judgement', judgement: { ...judgement, phase: 'idle' } });
      stand.feed.send({ type: 'trial', trial: trial(9, 243) });
      await expect.poll(() => page.locator('.row[data-trial="9"]').count()).toBe(1);
      await stage(page, 'settling');
      stand.feed.asked.length = 0;
      stand.feed.show(...messagesOf('logged'));
      await setHidden(false);
      await expect.poll(() => stand.feed.asked.length).toBeGreaterThan(0);
      await stage(page, 'logged');
    }));

  it('never says logged before the trial has come, nor after the plateau has closed', () =>
    withPage('hold', async (page) => {
      stand.feed.send({ type: 'declared', start_s: NOW_S - 6, declared_s: NOW_S });
      await settleFrames(page);
      await stage(page, 'hold');
      stand.feed.send({ type: 'judgement', judgement });
      await stage(page, 'still');
      const entered = trial(9, 243, { state: 'logged', revision: 1 });
      stand.feed.send({ type: 'trial', trial: entered });
      await stage(page, 'logged');
      stand.feed.send({ type: 'trial', trial: { ...entered, state: 'final', revision: 2 } });
      await stage(page, 'still');
    }));

  it('stays at the top of a phone when a trial is logged, and shows it in the list', () =>
    withPage(
      'still',
      async (page) => {
        stand.feed.send({ type: 'trial', trial: trial(9, 243, { state: 'logged', revision: 1 }) });
        await stage(page, 'logged');
        await page.locator('.row[data-trial="9"]').waitFor();
        await settleFrames(page);
        expect(await page.evaluate('scrollY')).toBe(0);
        await page.keyboard.press('ArrowDown');
        await settleFrames(page);
        expect(await page.evaluate('document.querySelector(".row.chosen").dataset.trial')).toBe('8');
      },
      PHONE,
    ));

  it('tells a bump that it has watched from a fan that was stopped', () =>
    withPage('disturbed', async (page) => {
      await stage(page, 'disturbed');
      stand.feed.send({
        type: 'judgement',
        judgement: {
          ...judgement,
          phase: 'moving',
          channels: judgement.channels.map((one) =>
            one.channel === 'windSpeed_mps' ? { ...one, motion: 'falling' as const } : one,
          ),
          threads: judgement.threads.map((one, i) => ({
            power_W: one.power_W * (i < 12 ? 1 : 0.2),
            joined: false,
          })),
        },
      });
      await stage(page, 'running-down');
    }));

  it('draws nothing of one recording into another', () =>
    withPage('logged', async (page) => {
      const board = status({ recordingId: 4, health: 'starting', sampleRate_Hz: null });
      stand.feed.send({ type: 'status', status: board });
      await stage(page, 'starting');
      expect((await powerFigure(page)).text).toBe('–––');
      stand.feed.send({ type: 'status', status: { ...board, health: 'reading' } });
      await stage(page, 'waiting');
      expect((await powerFigure(page)).text).toBe('–––');
      expect(await page.locator('.field text', { hasText: /^trial \d/ }).count()).toBe(0);
    }));

  it('says so when a message does not fit, and goes on', () =>
    withPage('settling', async (page) => {
      stand.feed.sendRaw(
        JSON.stringify({ type: 'status', status: { ...status(), health: 'splendid' } }),
      );
      await page.locator('.notice.alarm', { hasText: 'status.health' }).waitFor();
      stand.feed.sendRaw('<html>');
      stand.feed.send({ type: 'judgement', judgement });
      await stage(page, 'still');
    }));

  it('shows text from outside as text', () =>
    withPage('settling', async (page) => {
      const name = '<img src=x onerror=alert(1)>';
      const board = {
        id: 'x',
        path: '/dev/x',
        name,
        vendorId: null,
        productId: null,
        serialNumber: null,
        location: null,
      };
      stand.feed.send({ type: 'status', status: status({ offers: [board] }) });
      await page.locator('.notice', { hasText: name }).waitFor();
      expect(await page.locator('.notice img').count()).toBe(0);
    }));
});
