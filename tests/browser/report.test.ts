/** The report: its numbers against the program's own, its blanks, its pictures, and on paper. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { startServer, type ServerProcess } from '../support/server-process.ts';
import { keyIn } from '../support/keyed-readings.ts';
import { LANGUAGES } from '../../web/words/catalogue.ts';
import { REPORT_WORDS } from '../../web/words/report-languages.ts';
import { expectAccessible } from './support/accessible.ts';
import { closePage, openPage, SHEETS, type Sheet } from './support/browser.ts';
import { overlaps, visibleTexts } from './support/inspect.ts';
import { plannedSnapshot } from './support/plan-scenes.ts';
import { expectPng, readSvg, savedFile } from './support/saved-picture.ts';
import { describeOnStand, type Stand } from './support/stand.ts';

const LAPTOP: Sheet = SHEETS[1] ?? { name: '1280', width: 1280, height: 720 };
/** What the margins leave of the paper, at 96 pixels an inch. */
const PAPERS: readonly Sheet[] = [
  { name: 'A4', width: Math.floor(((210 - 34) / 25.4) * 96), height: 990 },
  { name: 'letter', width: Math.floor(((215.9 - 34) / 25.4) * 96), height: 920 },
];
const plain = (text: string): string => text.replace(/[\u202f\u00a0]/g, ' ').replaceAll('−', '-');

/** Volts and amperes keyed in at each angle, round by round: made up, 25° far above the rest. */
const READINGS: Readonly<Record<number, readonly (readonly [number, number])[]>> = {
  10: [[1.92, 0.0871], [1.95, 0.0883], [1.89, 0.0862]],
  25: [[2.37, 0.1079], [2.4, 0.1088], [2.35, 0.1075]],
  40: [[1.52, 0.0691], [1.5, 0.0686], [1.55, 0.0699]],
};
const PLAN = {
  question: 'Which blade angle gives the most power?',
  factors: [
    {
      kind: 'angle',
      key: 'angle_deg',
      name: 'Blade angle',
      levels: Object.keys(READINGS).map((angle) => ({ label: `${angle}°`, value: Number(angle) })),
    },
  ],
  ...{ design: 'single', rounds: 3, order: 'random', seed: 7, constants: [{ name: 'Fan', value: 'middle' }] },
};

describeOnStand('the report of a session', (stand: Stand) => {
  let folder: string;
  let server: ServerProcess;
  let page: Page;
  let problems: string[];

  const say = async (path: string, body: unknown): Promise<{ runs?: { id: string }[] }> => {
    const headers = { 'content-type': 'application/json', connection: 'close' };
    const given = { method: 'POST', headers, body: JSON.stringify(body) };
    const answer = await fetch(new URL(path, server.url), given);
    expect(answer.status).toBe(200);
    return (await answer.json()) as { runs?: { id: string }[] };
  };

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'stillmark-report-'));
    server = await startServer('--data', folder, '--source', 'meters');
    const { runs = [] } = await say('/api/experiment', { say: 'plan', plan: PLAN });
    for (const { id } of runs) {
      const [, round = '1', angle = '10'] = /^r(\d+) angle_deg=(\d+)$/.exec(id) ?? [];
      const pair = READINGS[Number(angle)]![Number(round) - 1]!;
      await say('/api/experiment', keyIn(id, [pair, pair]));
    }
    ({ page, problems } = await openPage(stand.browser, `${server.url}report`, { sheet: LAPTOP, scheme: 'dark' }));
    await page.locator('.answer').waitFor();
  }, 60_000);
  afterAll(async () => {
    await closePage(page);
    await server.kill();
    rmSync(folder, { recursive: true, force: true });
  });
  afterEach(() => expect(problems).toEqual([]));

  const textOf = async (selector: string): Promise<string> => plain(await page.locator(selector).innerText());

  it('shows every trial as the program has it', async () => {
    const trials = await server.trials();
    expect(trials).toHaveLength(9);
    for (const { id, power_W, voltage_V } of trials) {
      const row = await textOf(`.trial-table [data-trial="${id}"]`);
      const [, value, uncertainty] = /([\d.]+) ± ([\d.]+) mW/.exec(row) ?? [];
      expect(Math.abs(Number(value) - 1000 * power_W!.value)).toBeLessThanOrEqual(Number(uncertainty) / 2);
      expect(row).toContain(`${voltage_V!.value.toFixed(2)} V`);
      expect(row).toContain('keyed in, 2 readings');
    }
  });

  it('has the mean of each level, its limits, and every difference, as worked out here', async () => {
    const trials = await server.trials();
    const meanAt = (angle: number): number => {
      const powers = trials.filter(({ factors }) => factors['angle_deg'] === angle);
      return powers.reduce((sum, { power_W }) => sum + 1000 * power_W!.value, 0) / powers.length;
    };
    const rows = (await page.locator('.levels tbody tr').allInnerTexts()).map((row) => plain(row).split('\t'));
    expect(rows).toHaveLength(3);
    for (const [label = '', count, mean, limits = ''] of rows) {
      expect(count).toBe('3');
      const [low = 0, high = 0] = limits.split(' … ').map(Number);
      expect(Math.abs(Number(mean) - meanAt(parseInt(label)))).toBeLessThan((high - low) / 10);
      expect(Math.abs((low + high) / 2 - Number(mean))).toBeLessThan((high - low) / 10);
    }
    const pairs = (await page.locator('.pairs tbody tr').allInnerTexts()).map((row) => plain(row).split('\t'));
    expect(pairs.map(([pair]) => pair)).toEqual(['25° - 10°', '25° - 40°', '10° - 40°']);
    for (const [pair = '', difference] of pairs) {
      const [a = 0, b = 0] = pair.split(' - ').map((label) => parseInt(label));
      expect(Math.abs(Number(difference) - (meanAt(a) - meanAt(b)))).toBeLessThan(1);
    }
  });

  it('says the answer in the words of the bench page, in heavy figures once it stands', async () => {
    expect(await textOf('.answer .sentence')).toMatch(/^25° gives the most power: about \d\d % more than 10°/);
    expect(await page.locator('.best-level .figure').getAttribute('data-heavy')).toBe('111');
    expect(await textOf('.answer')).toContain('No more trials are needed.');
    expect(await textOf('main')).toContain('from the seed 7');
    expect(await textOf('main')).toContain('Measure the wind too');
    await expectAccessible(page);
    await page.setViewportSize({ width: 390, height: 844 });
    await expectAccessible(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    await page.setViewportSize({ width: LAPTOP.width, height: LAPTOP.height });
  });

  it('keeps a picture as SVG that stands alone, and as PNG as wide as a projector', async () => {
    const svg = await savedFile(page, /^Save as SVG: Power by blade angle/);
    const read = await readSvg(page, svg, ['[data-trial]']);
    expect(read.count('[data-trial]')).toBe(9);
    expect(read.text).toContain('Power by blade angle, mW');
    expectPng(await savedFile(page, /^Save as PNG: Power by blade angle/));
  });

  it('leaves means, differences, conclusion and reason to the students', async () => {
    await page.getByRole('button', { name: 'For students, with blanks' }).click();
    await page.locator('.blanks').waitFor();
    expect(page.url()).toMatch(/#students$/);
    expect(await page.locator('.blanks .blank').count()).toBe(6);
    expect(await page.locator('.trial-table tbody tr').count()).toBe(9);
    expect(await page.locator('.sentence, .levels, .pairs, .tests, .mean').count()).toBe(0);
    expect(await page.locator('.own .lines').count()).toBe(5);
    expect(await textOf('main')).not.toMatch(/gives the most power:|% more/);
    await page.getByRole('button', { name: 'Whole report' }).click();
    await page.locator('.levels').waitFor();
  });

  it('shows a struck trial faint with its reason, and leaves it out of the means', async () => {
    const before = await textOf('.levels tbody');
    await say('/api/actions', { kind: 'strike', trialId: 4, reason: 'blade slipped' });
    const row = page.locator('.trial-table tr.faint[data-trial="4"]');
    await row.waitFor();
    expect(await row.innerText()).toContain('struck: blade slipped');
    expect(await textOf('.levels tbody')).not.toBe(before);
    expect(await textOf('main')).toContain('1 trial is struck and in no mean.');
  });

  it('has nothing on paper that is only for hands', async () => {
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.tools:visible, .keep:visible').count()).toBe(0);
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--paper'))).toBe('#fff');
    await page.emulateMedia({ media: 'screen' });
  });
});

describeOnStand('the report on paper', (stand: Stand) => {
  it('fits A4 and letter in every language, whole and with blanks', async () => {
    stand.feed.show(plannedSnapshot('factorial'));
    const [first] = PAPERS;
    const { page, problems } = await openPage(stand.browser, `${stand.feed.url}report`, { sheet: first!, scheme: 'light' });
    await page.locator('.answer').waitFor();
    for (const language of LANGUAGES) {
      await page.emulateMedia({ media: 'screen' });
      await page.locator('.tools select').selectOption(language);
      for (const version of ['whole', 'student'] as const) {
        await page.emulateMedia({ media: 'screen' });
        await page.getByRole('button', { name: REPORT_WORDS[language].version[version] }).click();
        await page.emulateMedia({ media: 'print' });
        for (const { name, width, height } of PAPERS) {
          await page.setViewportSize({ width, height });
          const beyond = await page.evaluate(() =>
            [...document.querySelectorAll('main *')]
              .filter((element) => element.getBoundingClientRect().right > innerWidth + 1)
              .map(({ textContent }) => textContent),
          );
          expect(beyond, `${language} ${version} ${name}`).toEqual([]);
        }
        expect(overlaps(await visibleTexts(page)), `${language} ${version}`).toEqual([]);
      }
    }
    expect(problems).toEqual([]);
    await page.emulateMedia({ media: null });
    await closePage(page);
  });

  it('says of simulated readings so on the sheet, in its pictures and at each trial; shows nothing covered', async () => {
    const made = plannedSnapshot('finished');
    const status = { ...made.status, simulated: true };
    const trials = made.trials.map((one) => ({ ...one, simulated: true, origin: 'simulated' as const }));
    stand.feed.show({ ...made, status, trials });
    const { page, problems } = await openPage(stand.browser, `${stand.feed.url}report`, { sheet: LAPTOP, scheme: 'light' });
    await page.locator('.answer').waitFor();
    expect(await page.locator('.film-edge').count()).toBe(1);
    const pictures = await page.locator('figure').count();
    expect(pictures).toBe(4);
    expect(await page.locator('figure .simulated').allTextContents()).toEqual(Array(pictures).fill('SIMULATED · NO BOARD'));
    const rows = await page.locator('.trial-table tbody tr').allInnerTexts();
    expect(rows.every((row) => row.includes('simulated'))).toBe(true);
    stand.feed.show(plannedSnapshot('covered'));
    await page.locator('.answer').waitFor({ state: 'detached' });
    expect(await page.locator('figure, .trial-table, .levels').count()).toBe(0);
    expect(await page.locator('main').innerText()).toContain('The answer is covered.');
    expect(problems).toEqual([]);
    await closePage(page);
  });
});
