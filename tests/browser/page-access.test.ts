/** The page for everyone: contrast and names (axe-core), keys, focus, targets, motion, words. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectAccessible } from './support/accessible.ts';
import { closePage, openPage, SHEETS, type OpenOptions } from './support/browser.ts';
import { bandWords, settleFrames } from './support/inspect.ts';
import { ANNOUNCED, messagesOf } from './support/scenes.ts';
import { expectPng, readSvg, savedFile } from './support/saved-picture.ts';
import { describeOnStand } from './support/stand.ts';

const [, LAPTOP, PHONE] = SHEETS;

describeOnStand('the page for everyone', (stand) => {
  const open = async (name: string, options: Partial<OpenOptions> = {}): Promise<Page> => {
    if (LAPTOP === undefined) throw new Error('no sheet');
    stand.feed.show(...messagesOf(name));
    const { page } = await openPage(stand.browser, stand.feed.url, {
      sheet: LAPTOP,
      scheme: 'light',
      ...options,
    });
    await page.locator('.band .instruction').waitFor();
    await page.locator('.band:not([data-stage="connecting"])').waitFor();
    await settleFrames(page);
    return page;
  };
  const withPage = async (
    name: string,
    use: (page: Page) => Promise<void>,
    options: Partial<OpenOptions> = {},
  ): Promise<void> => {
    const page = await open(name, options);
    try {
      await use(page);
    } finally {
      await closePage(page);
    }
  };

  // Rules of WCAG 2.2 A and AA as implemented by axe-core.
  describe.each(['light', 'dark'] as const)('axe-core finds nothing, %s', (scheme) => {
    let shared: Page;
    beforeAll(async () => {
      shared = await open('settling', { scheme });
    });
    afterAll(() => closePage(shared));
    it.each([
      'settling',
      'logged',
      'unplugged',
      'simulated',
      'offered',
      'saving-stopped',
      'no-trials',
      'denied',
      'unmapped',
    ])('%s', async (name) => {
      stand.feed.show(...messagesOf(name));
      await settleFrames(shared);
      await expectAccessible(shared);
    });
    it('on a phone', () =>
      withPage('logged', expectAccessible, {
        scheme,
        sheet: PHONE ?? { name: '390', width: 390, height: 844 },
      }));
    it('with the board unfolded and a zero about to be taken', () =>
      withPage(
        'waiting',
        async (page) => {
          stand.feed.show(...messagesOf('waiting', { board: ANNOUNCED }));
          await page.getByRole('button', { name: 'The board' }).click();
          await page.getByRole('button', { name: 'Take a zero of current' }).click();
          await expectAccessible(page);
        },
        { scheme },
      ));
    it('while a reason is being typed', () =>
      withPage(
        'settling',
        async (page) => {
          await page.keyboard.press('s');
          await expectAccessible(page);
        },
        { scheme },
      ));
  });

  it('is as wide as it needs to be for a finger', () =>
    withPage(
      'offered',
      async (page) => {
        const sizes = await page
          .locator('button:visible')
          .evaluateAll((all) =>
            all.map((one) => ({ text: one.textContent, ...one.getBoundingClientRect().toJSON() })),
          );
        expect(sizes.length).toBeGreaterThan(10);
        for (const { text, width, height } of sizes) {
          expect(`${text} ${width >= 44 && height >= 44}`).toBe(`${text} true`);
        }
      },
      { sheet: PHONE ?? { name: '390', width: 390, height: 844 } },
    ));

  it('has targets of at least 24 px on a laptop', () =>
    withPage('offered', async (page) => {
      const sizes = await page
        .locator('button:visible')
        .evaluateAll((all) =>
          all.map((one) => ({ text: one.textContent, ...one.getBoundingClientRect().toJSON() })),
        );
      for (const { text, width, height } of sizes) {
        expect(`${text} ${width >= 24 && height >= 24}`).toBe(`${text} true`);
      }
    }));

  it('strikes, notes and restores by keys, with the reason that was typed', () =>
    withPage('settling', async (page) => {
      stand.feed.posted.length = 0;
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('s');
      await page.keyboard.type('bumped by s and d');
      await page.keyboard.press('Enter');
      await page.keyboard.press('n');
      await page.keyboard.type('dusty blade');
      await page.keyboard.press('Enter');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('s');
      await expect
        .poll(() => stand.feed.posted)
        .toEqual([
          {
            path: '/api/actions',
            body: { kind: 'strike', trialId: 7, reason: 'bumped by s and d' },
          },
          { path: '/api/actions', body: { kind: 'note', trialId: 7, text: 'dusty blade' } },
          { path: '/api/actions', body: { kind: 'restore', trialId: 6 } },
        ]);
    }));

  it('does nothing when the typing is given up', () =>
    withPage('settling', async (page) => {
      stand.feed.posted.length = 0;
      await page.keyboard.press('s');
      await page.keyboard.type('oops');
      await page.keyboard.press('Escape');
      expect(await page.locator('.editor').count()).toBe(0);
      expect(stand.feed.posted).toEqual([]);
    }));

  it('takes up the board that is offered, by key and by button', () =>
    withPage('offered', async (page) => {
      stand.feed.posted.length = 0;
      await page.keyboard.press('b');
      await page.getByRole('button', { name: 'Use it' }).click();
      const wanted = { path: '/api/link', body: { use: 'board', id: 'usb:1209:0001:demo' } };
      await expect.poll(() => stand.feed.posted).toEqual([wanted, wanted]);
    }));

  it('shows why a request was refused', () =>
    withPage('settling', async (page) => {
      stand.feed.refuseWith = 'There is no trial 8 any more.';
      await page.getByRole('button', { name: 'Note: trial 8' }).click();
      await page.keyboard.press('Enter');
      await page.locator('.notice.alarm', { hasText: 'There is no trial 8 any more.' }).waitFor();
      stand.feed.refuseWith = null;
      await page.getByRole('button', { name: 'Understood' }).click();
      expect(await page.locator('.notice').count()).toBe(0);
    }));

  it('can do without letter keys, and remembers', () =>
    withPage('settling', async (page) => {
      await page.getByRole('button', { name: 'Keys', exact: true }).click();
      await page.getByRole('button', { name: 'Letter keys on' }).click();
      await page.keyboard.press('d');
      await page.keyboard.press('s');
      expect(await page.locator('html').getAttribute('data-theme')).toBe('light');
      expect(await page.locator('.editor').count()).toBe(0);
      await page.reload();
      await page.getByRole('button', { name: 'Keys', exact: true }).click();
      await page.getByRole('button', { name: 'Letter keys off' }).waitFor();
    }));

  it('turns dark and light by key and button, and remembers', () =>
    withPage('settling', async (page) => {
      const theme = () => page.locator('html').getAttribute('data-theme');
      await page.keyboard.press('d');
      expect(await theme()).toBe('dark');
      await page.reload();
      expect(await theme()).toBe('dark');
      await page.getByRole('button', { name: /^Light/ }).click();
      expect(await theme()).toBe('light');
    }));

  it('follows what the device prefers', () =>
    withPage(
      'settling',
      async (page) => {
        expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
        await page.emulateMedia({ colorScheme: 'light' });
        await expect.poll(() => page.locator('html').getAttribute('data-theme')).toBe('light');
      },
      { scheme: 'dark' },
    ));

  it('freezes the curves with space, says so, and goes back to now', () =>
    withPage('settling', async (page) => {
      await page.keyboard.press(' ');
      expect(await page.locator('.field-heads h2').innerText()).toMatch(
        /^Frozen at \d\d:\d\d:\d\d\. Still logging\.$/,
      );
      stand.feed.show(...messagesOf('logged'));
      await page.locator('.band[data-stage="logged"]').waitFor();
      expect(await page.locator('.row[data-trial="9"]').count()).toBe(1);
      await page.keyboard.press(' ');
      expect(await page.locator('.field-heads h2').innerText()).toBe('Power, last minute');
    }));

  it('keeps what is frozen as a picture that stands alone', () =>
    withPage('settling', async (page) => {
      expect(await page.locator('.save-picture').count()).toBe(0);
      await page.keyboard.press('Space');
      const field = await savedFile(page, 'Save as SVG: Power, last minute');
      const read = await readSvg(page, field, ['text', 'rect']);
      expect(read.text).toContain('60\u202fs ago');
      expect(read.text).toMatch(/trial \d/);
      // The curve has a point for every pixel or so.
      expect(field.length).toBeGreaterThan(4000);
      expectPng(await savedFile(page, 'Save as PNG: Power, last minute'));
    }));

  it('keeps the channels as a picture on light paper, from a dark page too', () =>
    withPage('logged', async (page) => {
      await page.locator('.band[data-stage="logged"]').waitFor();
      await page.keyboard.press('d');
      await page.keyboard.press('Space');
      const strips = await savedFile(page, 'Save as SVG: Voltage, current and wind');
      const tint = 'rect[fill="rgb(221, 231, 234)"]';
      const { text, count } = await readSvg(page, strips, [tint, 'path[stroke="rgb(0, 104, 168)"]']);
      // #dde7ea, tint; #0068a8, voltage. One stretch at least behind each of the three.
      expect(count(tint)).toBeGreaterThanOrEqual(3);
      expect(count('path[stroke="rgb(0, 104, 168)"]')).toBe(2);
      expect(text).toContain('Voltage, V');
      expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
      const result = await readSvg(page, await savedFile(page, /^Save as SVG: (?!Power, last|Voltage)/), ['[data-trial]']);
      expect(result.count('[data-trial]')).toBeGreaterThan(3);
    }));

  it('leaves space to the button that has the focus', () =>
    withPage('settling', async (page) => {
      await page.getByRole('button', { name: /^Dark/ }).focus();
      await page.keyboard.press(' ');
      expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
      expect(await page.locator('.field-heads h2').innerText()).toBe('Power, last minute');
    }));

  it('shows where the focus is', () =>
    withPage('settling', async (page) => {
      await page.keyboard.press('Tab');
      const outline = await page.evaluate(() => {
        const { outlineStyle, outlineWidth } = getComputedStyle(
          document.activeElement ?? document.body,
        );
        return `${outlineStyle} ${outlineWidth}`;
      });
      expect(outline).toBe('solid 2px');
    }));

  it('announces stages once each, politely, and gives every number as text', () =>
    withPage('settling', async (page) => {
      const line = page.getByRole('status');
      await expect.poll(() => line.textContent()).toMatch(/^Hands off\. Almost still\./);
      expect(await page.locator('[role=status], [aria-live]').count()).toBe(1);
      stand.feed.show(...messagesOf('logged'));
      await expect
        .poll(() => line.textContent())
        .toBe('Still. Logged. Now stop the fan. Wait for the blades to stop.');
      const said = await page.locator('.power').innerText();
      expect(said).toContain('Power 243 mW');
      const strips = await page.locator('.strip-reading .sr').allInnerTexts();
      expect(strips).toHaveLength(3);
      for (const text of strips) expect(text).toMatch(/^\d+(\.\d+)?$/);
    }));

  it('draws straight threads for those who want less motion', () =>
    withPage(
      'settling',
      async (page) => {
        // The curves are drawn once a second then.
        await expect
          .poll(() => page.locator('.threads .loose').count(), { timeout: 10_000 })
          .toBeGreaterThan(0);
        const paths = await page
          .locator('.threads .loose')
          .evaluateAll((all) => all.map((one) => one.getAttribute('d')));
        for (const path of paths) expect(path).toMatch(/^M[\d.]+ [\d.]+H[\d.]+$/);
      },
      { reducedMotion: 'reduce' },
    ));

  it('keeps its words in one line on a laptop, whatever the stage', () =>
    withPage('unplugged', async (page) => {
      for (const name of ['running-down', 'spinning-up', 'did-not-turn', 'unmapped']) {
        stand.feed.show(...messagesOf(name));
        await expect.poll(async () => (await bandWords(page)).instruction).not.toBe('');
        const height = await page
          .locator('.instruction')
          .evaluate((one) => one.getBoundingClientRect().height);
        expect(height).toBeLessThan(3 * 16 * 1.3);
      }
    }));
});
