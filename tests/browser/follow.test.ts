/** The follow page on phones: large enough, nothing cut off, and back by itself. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { expectAccessible } from './support/accessible.ts';
import { openPage } from './support/browser.ts';
import { leastType, overlaps, powerFigure, settleFrames, visibleTexts } from './support/inspect.ts';
import { plannedMessages } from './support/plan-scenes.ts';
import { messagesOf } from './support/scenes.ts';
import { describeOnStand } from './support/stand.ts';

const PHONES = [
  { name: '390', width: 390, height: 844 },
  { name: '320', width: 320, height: 640 },
  { name: '430', width: 430, height: 932 },
] as const;

const STATES: Readonly<Record<string, string>> = {
  waiting: 'Start the fan.',
  'spinning-up': 'Stand back. Spinning up.',
  hold: 'Hold still.',
  logged: 'Still. Logged.',
  'did-not-turn': 'Logged. It did not turn.',
  disturbed: 'Bumped! Wait again.',
  'running-down': 'Wait. Blades still turning.',
  unsettled: 'It keeps hunting.',
  unplugged: 'Board unplugged.',
  denied: 'Not allowed yet.',
  starting: 'Board is starting.',
  'no-trials': 'Start the fan.',
  simulated: 'Still. Logged.',
  'saving-stopped': 'Still.',
  ':settling': 'Hands off. Almost still.',
  ':logged': 'Still. Logged.',
  ':set-blades-unheard': 'Set blades to 40°.',
  ':start-fan': 'Stand back. Start the fan.',
  ':finished': 'All runs are done.',
  ':is-fan-on': 'Is the fan on?',
  ':covered': 'Hands off. Almost still.',
  ':factorial': 'Hands off. Almost still.',
  ':named': 'Hands off. Almost still.',
};

const sceneOf = (name: string): ReturnType<typeof messagesOf> =>
  name.startsWith(':') ? plannedMessages(name.slice(1)) : messagesOf(name);

describeOnStand('the follow page', (stand) => {
  let page: Page;
  let problems: string[];
  beforeAll(async () => {
    stand.feed.show(...messagesOf('waiting'));
    ({ page, problems } = await openPage(stand.browser, `${stand.feed.url}follow`, {
      sheet: PHONES[0],
      scheme: 'light',
      reducedMotion: 'reduce',
    }));
  });
  afterAll(() => page.context().close());

  const lineOf = async (selector: string): Promise<string> =>
    (await page.locator(selector).innerText()).replace(/\s+/g, ' ').trim();
  const show = async (name: string): Promise<void> => {
    stand.feed.show(...sceneOf(name));
    await expect.poll(() => lineOf('.instruction')).toBe(STATES[name]);
    await settleFrames(page);
  };

  it.each(Object.keys(STATES))('%s', async (name) => {
    const dark = Object.keys(STATES).indexOf(name) % 2 === 1;
    await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light', reducedMotion: 'reduce' });
    await show(name);
    for (const { name: phone, width, height } of PHONES) {
      await page.setViewportSize({ width, height });
      await settleFrames(page);
      const texts = await visibleTexts(page);
      expect(overlaps(texts)).toEqual([]);
      const out = texts.filter(({ left, right }) => left < 0 || right > width + 1);
      expect(out).toEqual([]);
      const least = await leastType(page);
      expect(`${phone}: ${least.text}: ${least.size_px >= 15}`).toBe(`${phone}: ${least.text}: true`);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    }
  });

  it('the cord comes in from the right and turns round the left edge into the plot', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await show(':settling');
    const cord = await page.locator('.lead').boundingBox();
    const slot = await page.locator('.threads .slot').boundingBox();
    expect((cord?.x ?? 0) + (cord?.width ?? 0)).toBeGreaterThan(390);
    expect(cord?.x).toBeLessThan(20);
    expect(slot?.x).toBeGreaterThan(60);
    expect(await lineOf('.below')).toMatch(/Run 10 of 15\. Watching only\./);
  });

  it('changes its language on the page, and is in it again when opened anew', async () => {
    await show('hold');
    await page.getByRole('button', { name: 'Français' }).click();
    expect(await lineOf('.instruction')).toBe('Ne bouge plus.');
    expect(await page.locator('html').getAttribute('lang')).toBe('fr');
    stand.feed.show(...messagesOf('did-not-turn'));
    await expect.poll(async () => (await powerFigure(page)).text).toBe('0,0');
    await page.reload();
    await expect.poll(() => lineOf('.instruction')).toBe('Enregistré. Sans tourner.');
    await page.getByRole('button', { name: 'English' }).click();
  });

  it.each(['light', 'dark'] as const)('axe-core finds nothing, %s', async (colorScheme) => {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    for (const name of [':settling', ':logged', 'unplugged', 'simulated', ':covered']) {
      await show(name);
      await expectAccessible(page);
    }
  });

  it('has targets of at least 44 px', async () => {
    const sizes = await page
      .locator('button')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON()));
    expect(sizes).toHaveLength(6);
    for (const { width, height } of sizes) expect(Math.min(width, height)).toBeGreaterThanOrEqual(44);
  });

  it('without news nothing looks alive; it comes back by itself when the phone wakes', async () => {
    await show(':settling');
    stand.feed.fallSilent();
    await page.locator('.follow[data-stage="no-news"]').waitFor();
    expect((await powerFigure(page)).text).toBe('–––');
    stand.feed.cut();
    stand.feed.show(...messagesOf('logged'));
    await page.evaluate(() => dispatchEvent(new PageTransitionEvent('pageshow')));
    await page.locator('.follow[data-stage="logged"]').waitFor();
  });

  it('throws no error and breaks no policy on the way', () => {
    expect(problems).toEqual([]);
  });
});
