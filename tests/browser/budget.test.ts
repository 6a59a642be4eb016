/** Where the ± of a trial comes from, on the bench page. */
import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import { budgetAnswer } from '#core/experiment/budget/answer.ts';
import { NO_FITS } from '#core/rotor/fitting/rig-fits.ts';
import { NO_EXPERIMENT } from '#core/experiment/view.ts';
import { NOTHING_ANNOUNCED } from '#core/instrument/in-use.ts';
import { UNKNOWN_INSTRUMENT, type Instrument } from '#core/instrument/instrument.ts';
import { LANGUAGES, type Language } from '../../web/words/catalogue.ts';
import { CATALOGUES } from '../../web/words/languages.ts';
import { DIVIDER_AND_SHUNT, ROTOR_AND_AIR } from '../support/budgets.ts';
import { expectAccessible } from './support/accessible.ts';
import { closePage, openPage, SHEETS, type Sheet } from './support/browser.ts';
import { overlaps, settleFrames, visibleTexts } from './support/inspect.ts';
import { SCENES, TRIALS } from './support/scenes.ts';
import { describeOnStand } from './support/stand.ts';

const LAPTOP: Sheet = SHEETS[1] ?? { name: '1280', width: 1280, height: 720 };
const STILL = { ...TRIALS[7]!, rotorStill: true };

function knownAs(said: Instrument) {
  return [{ recordingId: 3, boardId: 'b', said, announced: NOTHING_ANNOUNCED }];
}

describeOnStand('the budget of a trial on the page', (stand) => {
  let page: Page;
  let problems: string[];

  const open = async (
    said: Instrument,
    { sheet = LAPTOP, language = 'en', trials = TRIALS }: {
      sheet?: Sheet;
      language?: Language;
      trials?: typeof TRIALS;
    } = {},
  ): Promise<void> => {
    const experiment = { ...NO_EXPERIMENT, instruments: knownAs(said), rotorAndAir: ROTOR_AND_AIR };
    stand.feed.show({ ...SCENES['waiting']!, trials: [...trials], experiment });
    ({ page, problems } = await openPage(stand.browser, stand.feed.url, { sheet, scheme: 'light' }));
    await page.locator('.row[data-trial="8"]').waitFor();
    if (language !== 'en') await page.locator('.key-line select').selectOption(language);
    await page.locator('.row[data-trial="8"] .why').click();
    await settleFrames(page);
  };
  const text = async (): Promise<string> =>
    (await page.locator('.budget').innerText()).replaceAll('\u202f', ' ');

  afterEach(async () => {
    await closePage(page);
    expect(problems).toEqual([]);
  });

  it.each(SHEETS)('shows every cause that matters, nothing over another, $name', async (sheet) => {
    await open(DIVIDER_AND_SHUNT, { sheet });
    expect(await text()).toContain('Most of it: reference of the converter');
    const { budget } = budgetAnswer(TRIALS[7]!, { instruments: knownAs(DIVIDER_AND_SHUNT), rotorAndAir: null, airs: [], fits: NO_FITS });
    const shown = budget!.rows.filter(({ share }) => share >= 0.001).length;
    expect(await page.locator('.budget tbody tr').count()).toBeGreaterThanOrEqual(shown);
    expect(shown).toBeGreaterThan(4);
    expect(await text()).toMatch(/\d ± .* % of the wind’s power/);
    await page.getByRole('button', { name: 'Rotor and air' }).click();
    expect(overlaps(await visibleTexts(page))).toEqual([]);
    const [width, room] = await page.evaluate(() => [document.body.scrollWidth, innerWidth]);
    expect(width).toBeLessThanOrEqual(room ?? 0);
  });

  it('gives the uncertainty two digits, and the value to the same place', async () => {
    await open(DIVIDER_AND_SHUNT);
    expect(await page.locator('.budget h2').innerText()).toMatch(/^Trial 8: 259 ± \d\d\u202fmW$/);
  });

  it('has what the trial was logged as beside what it was refined to', async () => {
    const [trial] = TRIALS.slice(7);
    if (trial === undefined) throw new Error('no trial 8');
    const power_W = { value: 0.251, standardUncertainty: 0.004, degreesOfFreedom: 20 };
    stand.feed.revisions = [{ ...trial, revision: 1, state: 'logged', power_W }, trial];
    await open(DIVIDER_AND_SHUNT);
    await page.locator('.history summary').click();
    expect(await page.locator('.history li').allInnerTexts()).toEqual([
      expect.stringMatching(/^251 ± 8\s*mW · over .* · as logged$/),
      expect.stringMatching(/^259 ± .* · when the stretch had ended$/),
    ]);
    expect(overlaps(await visibleTexts(page))).toEqual([]);
    stand.feed.revisions = [];
  });

  it('says that it is a lower bound while nobody has said what measures', async () => {
    await open(UNKNOWN_INSTRUMENT);
    expect(await text()).toContain(
      'Not known: how voltage is measured and how current is measured. So the ± is at least this.',
    );
    expect(await page.locator('.budget a').getAttribute('href')).toBe('/wiring');
    expect(await page.locator('.budget tbody tr').count()).toBe(1);
  });

  it('of a rotor that stood still is what can’t be told from nothing', async () => {
    await open(DIVIDER_AND_SHUNT, { trials: [...TRIALS.slice(0, 7), STILL] });
    expect(await text()).toMatch(/Trial 8: 0 ± .*It did not turn/s);
  });

  it('closes with Escape, with its button, and where it was opened', async () => {
    await open(DIVIDER_AND_SHUNT);
    const budget = page.locator('.budget');
    await page.keyboard.press('Escape');
    expect(await budget.count()).toBe(0);
    await page.locator('.row[data-trial="8"] .why').click();
    await budget.getByRole('button', { name: 'Close' }).click();
    expect(await budget.count()).toBe(0);
    await page.locator('.row[data-trial="7"] .why').click();
    expect(await page.locator('.budget h2').innerText()).toContain('Trial 7');
    await page.locator('.row[data-trial="7"] .why').click();
    expect(await budget.count()).toBe(0);
  });

  it('takes rotor and air, and asks back what can’t be', async () => {
    await open(DIVIDER_AND_SHUNT);
    stand.feed.posted.length = 0;
    await page.getByRole('button', { name: 'Rotor and air' }).click();
    const radius = page.getByLabel('Axis to tip of a blade, mm');
    // What the session holds stands in it.
    expect(await radius.inputValue()).toBe('200');
    await radius.fill('20000');
    await page.getByRole('button', { name: 'Use this' }).click();
    expect(await text()).toContain('From 5 to 2000.');
    await radius.fill('190');
    await page.getByRole('button', { name: 'Use this' }).click();
    const described = { ...ROTOR_AND_AIR, radius_m: 0.19 };
    await expect.poll(() => stand.feed.posted.map(({ body }) => body)).toEqual([{ say: 'rotor-and-air', described }]);
    await page.evaluate('localStorage.clear()');
  });

  it.each([SHEETS[0]!, SHEETS[2]!])('fits a lamp to the trials, says what is wrong at the field, $name', async (sheet) => {
    await open(DIVIDER_AND_SHUNT, { sheet });
    stand.feed.posted.length = 0;
    await page.getByRole('button', { name: 'Fit to the rig' }).click();
    const lamp = page.getByRole('form', { name: 'The lamp' });
    await lamp.getByRole('button', { name: 'Take them from the trials' }).click();
    const turned = TRIALS.filter((one) => !one.struck && one.recorded && !one.rotorStill);
    expect(await lamp.innerText()).toContain(`Taken from the trials: ${turned.length}.`);
    await lamp.getByRole('button', { name: 'Empty the table' }).click();
    const points = [['0,5', '82.5'], ['1.0', '121 mA'], ['2.5', '0.2 A']];
    for (const [row, [volts, amps]] of points.entries()) {
      await lamp.getByLabel(`Reading ${row + 1}, V`).fill(volts!);
      await lamp.getByLabel(`Reading ${row + 1}, mA`).fill(amps!);
    }
    const fourth = lamp.getByLabel('Reading 4, V');
    await fourth.fill('two');
    await fourth.blur();
    expect(await lamp.innerText()).toContain('“two” is not a number');
    expect(overlaps(await visibleTexts(page))).toEqual([]);
    await fourth.fill('');
    // I = 0.2 A (V/2.5 V)^0.55: Fink and Beaty's exponent.
    expect(await lamp.innerText()).toMatch(/to the power of 0\.5[45]\d* ±/);
    expect(await lamp.getByRole('img').count()).toBe(1);
    await lamp.getByRole('button', { name: 'Use this' }).click();
    const steps = [[0.5, 0.0825], [1, 0.121], [2.5, 0.2]].map(([voltage_V, current_A]) => ({ voltage_V, current_A }));
    await expect.poll(() => stand.feed.posted.map(({ body }) => body)).toEqual([{ say: 'fit-lamp', readings: { steps } }]);
    const generator = page.getByRole('form', { name: 'The generator' });
    await generator.getByRole('combobox').selectOption('free');
    await generator.getByLabel('Reading 1, V').fill('2.4');
    await generator.getByLabel('Reading 1, mA').fill('48');
    await generator.getByLabel('Reading 2, V').fill('1.5');
    await generator.getByLabel('Reading 2, mA').fill('120');
    expect((await generator.innerText()).replaceAll('\u202f', ' ')).toContain('The winding has at most 12.5 Ω');
    expect(await generator.getByRole('button', { name: 'Use this' }).isDisabled()).toBe(true);
    const [width, room] = await page.evaluate(() => [document.body.scrollWidth, innerWidth]);
    expect(width).toBeLessThanOrEqual(room ?? 0);
    await expectAccessible(page);
  });

  describe.each(LANGUAGES)('in %s', (language) => {
    it('has its words and its decimal mark', async () => {
      await open(DIVIDER_AND_SHUNT, { language });
      const { budget, wind } = CATALOGUES[language];
      const shown = await page.locator('.budget').innerText();
      expect(shown).toContain(budget.cause['reference of the converter']);
      expect(shown).toContain(wind.cause.anemometer);
      const [own, other] = language === 'en' ? [/\d\.\d/, /\d,\d/] : [/\d,\d/, /\d\.\d/];
      expect(shown).toMatch(own);
      expect(shown).not.toMatch(other);
      expect(overlaps(await visibleTexts(page))).toEqual([]);
    });
  });
});
