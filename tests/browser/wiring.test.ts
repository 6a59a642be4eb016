/** The wiring page as the program serves it: what it says, for everyone, at three sizes. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import fastify, { type FastifyInstance } from 'fastify';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { LANGUAGES } from '../../web/words/catalogue.ts';
import { securityHeaders } from '../../server/routes/headers.ts';
import { serveWebFiles } from '../../server/routes/web-files.ts';
import { needsChromium } from '../support/needs.ts';
import { closePage, launch, openPage, SHEETS, type OpenOptions } from './support/browser.ts';
import { overlaps, settleFrames, visibleTexts } from './support/inspect.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const BUILT = join(resolve(import.meta.dirname, '../..'), 'dist/web');
const KINDS = ['divider', 'shunt', 'monitor', 'meter'] as const;
const [PROJECTOR, LAPTOP, PHONE] = SHEETS;
if (PROJECTOR === undefined || LAPTOP === undefined || PHONE === undefined) throw new Error('sheet');

const chromium = needsChromium();
chromium.describe('the wiring page', () => {
  let http: FastifyInstance;
  let browser: Browser;
  let address = '';

  beforeAll(async () => {
    http = fastify();
    http.addHook('onRequest', async (request, reply) => {
      reply.headers(securityHeaders(request.headers.host));
    });
    serveWebFiles(http, BUILT);
    address = await http.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch(chromium.path ?? '');
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    await http.close();
  });

  async function withPage(
    kind: string,
    use: (page: Page) => Promise<void>,
    options: Partial<OpenOptions> = {},
  ): Promise<void> {
    const { page, problems } = await openPage(browser, `${address}/wiring#${kind}`, {
      sheet: LAPTOP ?? { name: '1280', width: 1280, height: 720 },
      scheme: 'light',
      ...options,
    });
    try {
      await page.locator('.result').waitFor();
      await use(page);
      expect(problems).toEqual([]);
    } finally {
      await closePage(page);
    }
  }

  /** Words with plain spaces. */
  const words = async (page: Page, selector: string): Promise<string> =>
    (await page.locator(selector).innerText()).replaceAll('\u202f', ' ').trim();

  async function typePairs(page: Page, pairs: readonly (readonly [string, string])[]) {
    for (const [i, [meter, shown]] of pairs.entries()) {
      await page.getByLabel(`Pair ${i + 1}: meter`).fill(meter);
      await page.getByLabel(`Pair ${i + 1}: page`).fill(shown);
    }
  }

  const PAIRS = [
    ['0.00', '0.02'],
    ['2.31', '2.262'],
    ['4.62', '4.501'],
  ] as const;

  it.each(
    KINDS.flatMap((kind) => (['light', 'dark'] as const).map((scheme) => ({ kind, scheme }))),
  )('axe-core finds nothing: $kind, $scheme', ({ kind, scheme }) =>
    withPage(
      kind,
      async (page) => {
        const check = async (): Promise<void> => {
          const found = await page.evaluate<string[]>(`
            axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'] })
              .then(({ violations }) => violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => id + ': ' + target)))
          `);
          expect(found).toEqual([]);
        };
        await page.evaluate(AXE);
        if (kind === 'meter') await typePairs(page, PAIRS);
        await check();
        await page.locator('.typed input').first().fill('1,5');
        await check();
      },
      { scheme },
    ),
  );

  it.each(
    [PROJECTOR, LAPTOP, PHONE].flatMap((sheet) => KINDS.map((kind) => ({ kind, sheet }))),
  )('fits $sheet.name in every language: $kind', ({ kind, sheet }) =>
    withPage(
      kind,
      async (page) => {
        if (kind === 'meter') await typePairs(page, PAIRS);
        for (const language of LANGUAGES) {
          await page.locator('.buttons select').selectOption(language);
          await settleFrames(page);
          const texts = await visibleTexts(page);
          expect(texts.length).toBeGreaterThan(20);
          expect(overlaps(texts)).toEqual([]);
          const width = await page.evaluate(() => document.documentElement.scrollWidth);
          expect(width).toBeLessThanOrEqual(sheet.width);
          expect(await page.locator('.problem').count()).toBe(0);
        }
      },
      { sheet },
    ),
  );

  it('says what a divider reads, and gives the lines for the sketch', () =>
    withPage('divider', async (page) => {
      expect(await words(page, '.sentence')).toBe(
        'Reads up to 15.0 V in steps of 14.6 mV. The parts make every reading uncertain by 2.9 %, the same share each time.',
      );
      await page.getByLabel('Upper resistor', { exact: true }).fill('1');
      await page.getByLabel('Lower resistor', { exact: true }).fill('10');
      await page.getByLabel('Tolerance of the reference').fill('0.5');
      expect(await words(page, '.sentence')).toMatch(
        /^Reads up to 5\.49 V in steps of 5\.37 mV\. .* by 0\.30 %,/,
      );
      expect(await words(page, '.settings pre')).toContain('#define VOLTAGE_SCALE "0.08392334"');
      const warnings = await page.locator('.notice.alarm').allInnerTexts();
      expect(warnings.map((one) => one.replaceAll('\u202f', ' '))).toEqual([
        expect.stringMatching(/^Too small: it ends at 5\.49 V, and you expect 12\.0 V\./),
        expect.stringMatching(/^The clamping diodes might have to carry 11 mA\./),
      ]);
    }));

  it('takes parts from the shops into the form', () =>
    withPage('divider', async (page) => {
      await page.getByLabel('Largest voltage').fill('9');
      await page.getByRole('button', { name: 'Take it' }).first().click();
      expect(await page.getByLabel('Upper resistor', { exact: true }).inputValue()).toBe('10');
      expect(await page.getByLabel('Lower resistor', { exact: true }).inputValue()).toBe('12');
      expect(await page.locator('.notice').count()).toBe(0);
    }));

  it('refuses a decimal comma at its field, and shows no figure until it is put right', () =>
    withPage('divider', async (page) => {
      const field = page.getByLabel('Upper resistor', { exact: true });
      await field.fill('4,7');
      const problem = 'Upper resistor: use a decimal point, not a comma: 4.7 rather than 4,7.';
      expect(await words(page, '.problem')).toBe(problem);
      expect(await field.getAttribute('aria-invalid')).toBe('true');
      expect(await page.locator('.amount .figure').getAttribute('data-text')).toBe('–');
      expect(await page.locator('.settings').count()).toBe(0);
      await field.fill('4.7');
      expect(await page.locator('.problem').count()).toBe(0);
      expect(await page.locator('.settings').count()).toBe(1);
    }));

  it('speaks another language, whose decimal comma may be typed', () =>
    withPage('divider', async (page) => {
      await page.locator('.buttons select').selectOption('de');
      expect(await words(page, '.sentence')).toMatch(/^Misst bis 15,0 V in Stufen von 14,6 mV\./);
      expect(await words(page, '.cautions')).toMatch(/nie Netzspannung .* frag eine Fachkraft/);
      await page.getByLabel('Oberer Widerstand', { exact: true }).fill('2,2');
      await page.getByLabel('Unterer Widerstand', { exact: true }).fill('10,x');
      const problem = 'Unterer Widerstand: „10,x“ ist keine Zahl. Tipp eine wie 10, ohne Einheit.';
      expect(await words(page, '.problem')).toBe(problem);
      await page.locator('.buttons select').selectOption('en');
      const upper = page.getByLabel('Upper resistor', { exact: true });
      expect(await upper.inputValue()).toBe('2.2');
    }));

  it('draws heavy what the parts leave as it is', () =>
    withPage('divider', async (page) => {
      const figure = page.locator('.amount .figure');
      // 15.0 V ± 0.44 V: the ones hold, the tenths don't.
      expect(await figure.getAttribute('data-text')).toBe('15.0');
      expect(await figure.getAttribute('data-heavy')).toBe('1110');
      await page.getByLabel('Tolerance of the reference').fill('0');
      expect(await figure.getAttribute('data-heavy')).toBe('1110');
      await page.getByLabel('Tolerance of the upper resistor').fill('0.1');
      await page.getByLabel('Tolerance of the lower resistor').fill('0.1');
      expect(await figure.getAttribute('data-heavy')).toBe('1111');
    }));

  it('works by keyboard alone, and the address names what is shown', () =>
    withPage('shunt', async (page) => {
      await page.keyboard.press('Tab');
      expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Bench');
      await page.keyboard.press('Tab');
      for (let i = 0; i < 4; i++) await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      expect(await page.locator('.kinds [aria-pressed="true"]').innerText()).toBe('Both, I²C monitor');
      expect(page.url()).toMatch(/#monitor$/);
      expect(await words(page, '.settings pre')).toContain('#define SHUNT_RANGE_MV 320');
      const outline = await page.evaluate(
        () => getComputedStyle(document.activeElement ?? document.body).outlineWidth,
      );
      expect(outline).toBe('2px');
    }));

  it('finds gain and offset from pairs of readings', () =>
    withPage('meter', async (page) => {
      expect(await words(page, '.sentence')).toBe('Nothing to say yet. Look at what is marked.');
      await typePairs(page, PAIRS);
      // Through the outer pairs, by hand: 4.62 / (4.501 − 0.02) = 1.0310.
      expect(await words(page, '.sentence')).toMatch(/^Gain 1\.031\d, uncertain by 0\.3\d %\. Offset −2\d mV/);
      expect(await words(page, '.settings pre')).toMatch(/^#define VOLTAGE_GAIN "1\.031\d+"\n/);
      // By hand: 0.5 % of 4.62 V and two counts of 10 mV.
      expect(await words(page, '.facts')).toMatch(/^At 4\.62 V the meter itself may be off by ±43 mV\./);
      await page.getByLabel('Pair 2: page').fill('3.262');
      expect(await words(page, '.notice.alarm')).toMatch(/misread/);
      await page.getByLabel('Pair 2: page').fill('2,262');
      expect(await words(page, '.problem')).toMatch(/^Reading of the page: use a decimal point/);
      expect(await page.getByLabel('Pair 2: page').getAttribute('aria-invalid')).toBe('true');
      expect(await page.getByLabel('Pair 2: meter').getAttribute('aria-invalid')).toBe('false');
      // Readings that fall while the meter rises make no line; a bad field elsewhere is not that.
      await page.getByLabel('Pair 2: page').fill('');
      await page.getByLabel('Pair 2: meter').fill('');
      await page.getByLabel('Pair 3: page').fill('-1.00');
      const noLine = page.getByText('No line goes through these');
      expect(await noLine.count()).toBe(1);
      await page.getByLabel('Accuracy of the meter, counts').fill('two');
      expect(await noLine.count()).toBe(0);
    }));

  it('has room for fingers on a phone', () =>
    withPage(
      'divider',
      async (page) => {
        const sizes = await page
          .locator('button:visible, input:visible')
          .evaluateAll((all) =>
            all.map((one) => ({ text: one.id || one.textContent, ...one.getBoundingClientRect().toJSON() })),
          );
        expect(sizes.length).toBeGreaterThan(15);
        for (const { text, height } of sizes) expect(`${text} ${height >= 44}`).toBe(`${text} true`);
      },
      { sheet: PHONE },
    ));

  it('tells a screen reader the result once the typing rests', () =>
    withPage('divider', async (page) => {
      await page.getByLabel('Lower resistor', { exact: true }).fill('20');
      await expect.poll(() => page.locator('.sr[role=status]').textContent()).toMatch(/^Reads up to 9\.99/);
    }));

  it('can be copied, or marked where the browser does not allow that', () =>
    withPage('divider', async (page) => {
      const button = page.locator('.settings .page-button');
      await button.click();
      await expect.poll(() => button.innerText()).toMatch(/^(Copied|Marked: copy it now)$/);
      if ((await button.innerText()) !== 'Copied') {
        expect(await page.evaluate(() => getSelection()?.toString())).toContain('VOLTAGE_SCALE');
      }
    }));
});
