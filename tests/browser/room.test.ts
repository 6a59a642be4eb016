/** The room page in every state: type and lines large enough, nothing cut off or over another. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectAccessible } from './support/accessible.ts';
import { openPage, type Sheet } from './support/browser.ts';
import { leastType, overlaps, powerFigure, settleFrames, visibleTexts } from './support/inspect.ts';
import { plannedMessages } from './support/plan-scenes.ts';
import { messagesOf } from './support/scenes.ts';
import { replaceSpeech, spokenOn } from './support/speech.ts';
import { describeOnStand } from './support/stand.ts';

const SHEETS: readonly Sheet[] = [
  { name: '1920', width: 1920, height: 1080 },
  { name: '1280', width: 1280, height: 720 },
  { name: '1024', width: 1024, height: 768 },
  { name: 'wide', width: 2560, height: 1080 },
];

/** What the room reads, in each state: with a plan (behind a colon) and without. */
const STATES: Readonly<Record<string, readonly [instruction: string, state: string]>> = {
  waiting: ['Start the fan.', 'No wind yet'],
  'spinning-up': ['Stand back. Spinning up.', '24 threads loose'],
  settling: ['Hands off. Almost still.', '10 threads loose'],
  hold: ['Hold still.', '3 s left'],
  still: ['Still.', 'Recording: 3 s'],
  logged: ['Still. Logged.', 'Now stop the fan'],
  'did-not-turn': ['Logged. It did not turn.', 'Now stop the fan'],
  disturbed: ['Bumped! Wait again.', '13 threads loose'],
  'running-down': ['Wait. Blades still turning.', 'Touch nothing yet'],
  unsettled: ['It keeps hunting.', 'Waiting won’t stop it'],
  unplugged: ['Board unplugged.', 'Push the cable in'],
  silent: ['Board is silent.', 'Push the cable in'],
  denied: ['Not allowed yet.', 'See the laptop'],
  starting: ['Board is starting.', 'Waiting for a reading'],
  'no-board': ['Plug the board in.', 'No board found yet'],
  unmapped: ['Which number is what?', 'See the laptop'],
  'no-trials': ['Start the fan.', 'No wind yet'],
  simulated: ['Still. Logged.', 'Now stop the fan'],
  'saving-stopped': ['Still.', 'Not saved yet'],
  ':settling': ['Hands off. Almost still.', '10 threads loose'],
  ':logged': ['Still. Logged.', 'Now stop the fan'],
  ':stop-fan': ['Stop the fan.', 'Touch nothing yet'],
  ':blades-stopping': ['Wait. Blades still turning.', 'Touch nothing yet'],
  ':set-blades': ['Set blades to 40°.', 'Look: nothing may turn'],
  ':set-blades-unheard': ['Set blades to 40°.', 'Look: fan off? All still?'],
  ':set-blades-turning': ['Stand back. Spinning up.', '24 threads loose'],
  ':start-fan': ['Stand back. Start the fan.', 'Hands and hair clear?'],
  ':finished': ['All runs are done.', 'The plan is complete'],
  ':paused': ['Wait. Not logging.', 'The operator said wait'],
  ':is-fan-on': ['Is the fan on?', 'Answer on the laptop'],
  ':unsettled': ['It keeps hunting.', 'Answer on the laptop'],
  ':unassigned': ['Which run was this?', 'Answer on the laptop'],
  ':covered': ['Hands off. Almost still.', '10 threads loose'],
  ':factorial': ['Hands off. Almost still.', '10 threads loose'],
  ':named': ['Hands off. Almost still.', '10 threads loose'],
  ':many': ['Hands off. Almost still.', '10 threads loose'],
};

const sceneOf = (name: string): ReturnType<typeof messagesOf> =>
  name.startsWith(':') ? plannedMessages(name.slice(1)) : messagesOf(name);

/** The thinnest line of the drawing, as a share of the height. */
async function thinnestLine(page: Page): Promise<number> {
  return page.evaluate(() => {
    const marks = [...document.querySelectorAll('svg.drawing :is(line, path, rect, circle)')];
    const widths = marks.flatMap((mark) => {
      const { stroke, strokeWidth } = getComputedStyle(mark);
      return stroke === 'none' || !mark.checkVisibility() ? [] : [parseFloat(strokeWidth)];
    });
    return Math.min(...widths) / innerHeight;
  });
}

describeOnStand('the room page', (stand) => {
  let page: Page;
  let problems: string[];
  beforeAll(async () => {
    const [sheet] = SHEETS;
    if (sheet === undefined) throw new Error('no sheet');
    stand.feed.show(...messagesOf('waiting'));
    ({ page, problems } = await openPage(stand.browser, `${stand.feed.url}room`, {
      sheet,
      scheme: 'light',
      reducedMotion: 'reduce',
      before: replaceSpeech,
    }));
  });
  afterAll(() => page.context().close());

  const show = async (name: string): Promise<void> => {
    stand.feed.show(...sceneOf(name));
    const [instruction] = STATES[name] ?? [''];
    await expect.poll(() => lineOf('.instruction')).toBe(instruction);
    await settleFrames(page);
  };
  const lineOf = async (selector: string): Promise<string> =>
    (await page.locator(selector).innerText()).replace(/\s+/g, ' ').trim();
  const count = (selector: string): Promise<number> => page.locator(selector).count();

  it.each(Object.keys(STATES))('%s', async (name) => {
    const dark = Object.keys(STATES).indexOf(name) % 2 === 1;
    await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light', reducedMotion: 'reduce' });
    await show(name);
    expect(await lineOf('.state')).toBe(STATES[name]?.[1]);
    const sheets = name.startsWith(':') ? SHEETS : SHEETS.slice(0, 3);
    for (const { name: size, width, height } of sheets) {
      await page.setViewportSize({ width, height });
      await settleFrames(page);
      const least = await leastType(page);
      const isLarge = least.size_px / height >= 0.04199;
      expect(`${size} ${least.text} ${isLarge}`).toBe(`${size} ${least.text} true`);
      expect(await thinnestLine(page)).toBeGreaterThanOrEqual(0.00279);
      const texts = await visibleTexts(page);
      expect(overlaps(texts)).toEqual([]);
      const out = texts.filter(
        (box) => box.left < 0 || box.right > width + 1 || box.top < 0 || box.bottom > height + 1,
      );
      expect(out).toEqual([]);
      const scrolls = await page.evaluate(() => {
        const { scrollWidth, scrollHeight } = document.documentElement;
        return scrollWidth > innerWidth || scrollHeight > innerHeight;
      });
      expect(`${size} scrolls: ${scrolls}`).toBe(`${size} scrolls: false`);
    }
  });

  describe('draws', () => {
    beforeAll(() => page.setViewportSize({ width: 1280, height: 720 }));
    it('a cord that bleeds off the left edge and ends at the slot', async () => {
      await show(':settling');
      const box = await page.locator('.lead').boundingBox();
      const slot = await page.locator('.threads .slot').boundingBox();
      expect(box?.x).toBeLessThan(0);
      expect(Math.abs((box?.x ?? 0) + (box?.width ?? 0) - (slot?.x ?? 0))).toBeLessThan(4);
      expect(await count('.threads .loose')).toBe(10);
    });
    it('no cord while it spins up, a frayed one when cut off, a dotted line while it waits', async () => {
      await show('spinning-up');
      expect([await count('.lead'), await count('.threads .loose')]).toEqual([0, 24]);
      await show('unplugged');
      expect(await count('.frayed path')).toBeGreaterThan(4);
      expect((await powerFigure(page)).text).toBe('–––');
      await show('waiting');
      expect(await count('.dotted')).toBe(1);
    });
    it('yellow ground in light, yellow ink in dark, for logged alone', async () => {
      const ground = (): Promise<string> =>
        page.locator('.room').evaluate((room) => getComputedStyle(room).backgroundColor);
      const ink = (): Promise<string> =>
        page.locator('.instruction').evaluate((one) => getComputedStyle(one).color);
      await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
      await show('settling');
      expect(await ground()).toBe('rgb(245, 247, 245)');
      await show('logged');
      expect(await ground()).toBe('rgb(255, 210, 31)');
      await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
      await settleFrames(page);
      expect([await ground(), await ink()]).toEqual(['rgb(11, 19, 21)', 'rgb(255, 210, 31)']);
    });
    it('rings on their 95 % lines, only where a level was tried twice', async () => {
      await show(':settling');
      expect(await count('.mean .ring')).toBe(3);
      expect(await page.locator('.mean.least').first().isVisible()).toBe(false);
    });
    it('covered: no mark, no mean, no sentence, neither to be seen nor heard', async () => {
      await show(':covered');
      expect([await count('.mark'), await count('.mean'), await count('li')]).toEqual([0, 0, 0]);
      expect(await lineOf('.said-now')).toBe('The answer is covered. What do you expect?');
    });
    it('figures that make room when their number grows longer', async () => {
      await page.setViewportSize({ width: 1024, height: 768 });
      await show('waiting');
      const height = async (): Promise<number> =>
        (await page.locator('.power .figure').boundingBox())?.height ?? 0;
      const short = await height();
      await show('settling');
      expect(await height()).toBeLessThan(short);
      const place = await page.locator('.figures').boundingBox();
      const power = await page.locator('.power').boundingBox();
      // Letters are set at whole pixels: a hundredth of the width may be missing.
      expect(power?.width).toBeLessThanOrEqual(1.01 * (place?.width ?? 0));
      await page.setViewportSize({ width: 1280, height: 720 });
    });
    it('what comes next once it is logged, else how far the plan has come', async () => {
      await show(':settling');
      expect(await lineOf('.progress')).toBe('10 of 15');
      await show(':logged');
      expect(await lineOf('.progress')).toMatch(/^Next: \d+°$/);
    });
  });

  it('says all of it in words for those who listen', async () => {
    await show(':logged');
    const heard = await page.locator('li').allInnerTexts();
    expect(heard.length).toBeGreaterThan(5);
    await expect.poll(() => lineOf('[role=status]')).toMatch(/^Still\. Logged\. Now stop the fan/);
  });

  it.each(['light', 'dark'] as const)('axe-core finds nothing, %s', async (colorScheme) => {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    for (const name of [':settling', ':logged', 'unplugged', 'simulated', ':covered']) {
      await show(name);
      await expectAccessible(page);
    }
  });

  it('speaks once somebody has clicked, each step once, the newest only', async () => {
    await show('waiting');
    expect(await spokenOn(page)).toEqual([]);
    await page.mouse.click(200, 300);
    expect(await lineOf('.said-now')).toBe('Voice on');
    await show('logged');
    await expect.poll(() => spokenOn(page)).toContain('Settled. 243 milliwatts. Stop the fan.');
    stand.feed.show(...messagesOf('logged'));
    await show(':start-fan');
    await expect.poll(async () => (await spokenOn(page)).at(-1)).toBe('Stand back. Start the fan.');
    const all = await spokenOn(page);
    expect(all.filter((text) => text.startsWith('Settled.'))).toHaveLength(1);
    await page.keyboard.press('m');
    await show('logged');
    await page.waitForTimeout(700);
    expect(await spokenOn(page)).toEqual(all);
  });

  it('after 3 s without news nothing looks alive', async () => {
    await show(':settling');
    stand.feed.fallSilent();
    await page.locator('.room[data-stage="no-news"]').waitFor();
    expect(await lineOf('.instruction')).toBe('No news.');
    expect((await powerFigure(page)).text).toBe('–––');
    expect(await count('.lead')).toBe(0);
  });

  it('throws no error and breaks no policy on the way', () => {
    expect(problems).toEqual([]);
  });
});
