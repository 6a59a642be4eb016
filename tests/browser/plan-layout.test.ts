/** The bench page with a plan at every size: nothing overlaps or sticks out, and all can use it. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectAccessible } from './support/accessible.ts';
import { closePage, openPage, SHEETS } from './support/browser.ts';
import { overlaps, settleFrames, visibleTexts } from './support/inspect.ts';
import { PLANNED, plannedMessages } from './support/plan-scenes.ts';
import { describeOnStand } from './support/stand.ts';

describeOnStand('the bench page with a plan is laid out well and for everyone', (stand) => {
  describe.each(SHEETS)('at $name pixels', (sheet) => {
    let page: Page;
    beforeAll(async () => {
      stand.feed.show(...plannedMessages('settling'));
      const scheme = sheet.name === '1280' ? 'dark' : 'light';
      ({ page } = await openPage(stand.browser, stand.feed.url, { sheet, scheme }));
      await page.locator('.rail').waitFor();
    });
    afterAll(() => closePage(page));

    it.each(Object.keys(PLANNED))('%s', async (name) => {
      stand.feed.show(...plannedMessages(name));
      await settleFrames(page);
      await settleFrames(page);
      const texts = await visibleTexts(page);
      expect(overlaps(texts)).toEqual([]);
      const size = await page.evaluate(() => {
        const { scrollWidth, scrollHeight } = document.documentElement;
        return { scrollWidth, scrollHeight };
      });
      expect(size.scrollWidth).toBeLessThanOrEqual(sheet.width);
      if (sheet.width > 760) expect(size.scrollHeight).toBeLessThanOrEqual(sheet.height);
      for (const { text, left, right } of texts) {
        expect(`${text}: ${left >= 0 && right <= sheet.width}`).toBe(`${text}: true`);
      }
    });

    it.each(['settling', 'logged', 'unassigned', 'covered', 'named'])('%s, for everyone', async (name) => {
      stand.feed.show(...plannedMessages(name));
      await settleFrames(page);
      await expectAccessible(page);
    });
  });

  it.each(['settling', 'finished', 'unassigned'])('takes the place for a notice from the pictures, not from the answer, %s', async (name) => {
    const sheet = SHEETS[1];
    if (sheet === undefined) throw new Error('no sheet');
    stand.feed.show(...plannedMessages(name));
    stand.feed.refuseWith = 'Not done, because it can’t be saved now: do it again when saving works.';
    const { page } = await openPage(stand.browser, stand.feed.url, { sheet, scheme: 'light' });
    await page.locator('.rail').waitFor();
    await page.keyboard.press('c');
    await page.locator('.notice.alarm').waitFor();
    await settleFrames(page);
    const [needed, has] = await page.locator('.small').evaluate((one) => [one.scrollHeight, one.clientHeight]);
    expect(has).toBeGreaterThanOrEqual(needed ?? Infinity);
    expect(overlaps(await visibleTexts(page))).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollHeight')).toBeLessThanOrEqual(sheet.height);
    stand.feed.refuseWith = null;
    await closePage(page);
  });

  it('has room for the words of every language on the smaller laptop', async () => {
    const sheet = SHEETS[1];
    if (sheet === undefined) throw new Error('no sheet');
    stand.feed.show(...plannedMessages('settling'));
    const { page } = await openPage(stand.browser, stand.feed.url, { sheet, scheme: 'light' });
    await page.locator('.rail').waitFor();
    for (const language of ['en', 'de', 'es', 'fr']) {
      await page.locator('.key-line select').selectOption(language);
      await settleFrames(page);
      const cut = await page.evaluate(() => {
        const all = [...document.querySelectorAll('h1, .link-words, .small, .said, .uncertainty')];
        const isCut = (one: Element): boolean =>
          one.scrollWidth > one.clientWidth + 1 ||
          one.scrollHeight > one.clientHeight + 1 ||
          one.getBoundingClientRect().right > window.innerWidth;
        return all.filter(isCut).map(({ className, textContent }) => `${className}: ${textContent}`);
      });
      expect(cut, language).toEqual([]);
      const lines = await page
        .locator('.key-line > *')
        .evaluateAll((all) => new Set(all.map((one) => one.getBoundingClientRect().bottom >> 4)).size);
      expect(lines, language).toBe(1);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(sheet.width);
    }
    await closePage(page);
  });

  it('shows the current round alone on a phone, with targets for a finger', async () => {
    const sheet = SHEETS[2];
    if (sheet === undefined) throw new Error('no sheet');
    stand.feed.show(...plannedMessages('unassigned'));
    const { page } = await openPage(stand.browser, stand.feed.url, { sheet, scheme: 'dark' });
    await page.locator('.rail').waitFor();
    expect(await page.locator('.round:visible').count()).toBe(1);
    const small = await page.locator('button:visible').evaluateAll((all) =>
      all
        .map((one) => ({ text: one.textContent, ...one.getBoundingClientRect().toJSON() }))
        .filter(({ width, height }: { width: number; height: number }) => width < 44 || height < 44)
        .map(({ text }: { text: string | null }) => text),
    );
    expect(small).toEqual([]);
    await closePage(page);
  });
});
