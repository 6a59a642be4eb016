/** The plan made on the bench page: by keyboard alone, with what is in the way said at its field. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { strToU8, zipSync } from 'fflate';
import { CommandSchema } from '#core/experiment/command.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import { bladesPlan } from '#core/experiment/plan/templates.ts';
import { expectAccessible } from './support/accessible.ts';
import { openPage, SHEETS } from './support/browser.ts';
import { overlaps, settleFrames, visibleTexts } from './support/inspect.ts';
import { plannedMessages } from './support/plan-scenes.ts';
import { messagesOf } from './support/scenes.ts';
import { describeOnStand } from './support/stand.ts';

describeOnStand('the plan form', (stand) => {
  const [PROJECTOR, LAPTOP, PHONE] = SHEETS;
  if (!PROJECTOR || !LAPTOP || !PHONE) throw new Error('no sheet');
  let page: Page;
  let problems: string[];
  beforeAll(async () => {
    stand.feed.show(...messagesOf('waiting'));
    const options = { sheet: LAPTOP, scheme: 'light' } as const;
    ({ page, problems } = await openPage(stand.browser, stand.feed.url, options));
    await page.locator('.band[data-stage="waiting"]').waitFor();
  });
  afterAll(() => page.context().close());
  beforeEach(async () => {
    stand.feed.posted.length = 0;
    stand.feed.refuseWith = null;
    // A fresh device: nothing kept, nothing unfolded.
    await page.evaluate('localStorage.clear()');
    await page.reload();
    await page.locator('.band[data-stage="waiting"]').waitFor();
  });

  const field = (name: string) => page.locator(`[name="${name}"]`);
  const problem = (name: string) => page.locator(`[id="problem-${name}"]`);
  const press = async (...keys: string[]): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const typeInto = async (name: string, text: string): Promise<void> => {
    await field(name).fill(text);
  };
  /** The plan that was sent last. */
  const sent = async (): Promise<Plan> => {
    await expect.poll(() => stand.feed.posted.length).toBe(1);
    const command = CommandSchema.parse(stand.feed.posted[0]?.body);
    if (command.say !== 'plan' || command.plan === null) throw new Error('no plan was sent');
    return command.plan;
  };

  it('is made by keyboard alone, and what was typed is what is sent', async () => {
    await press('q');
    expect(await page.evaluate('document.activeElement.name')).toBe('question');
    await page.keyboard.type('Which tail is steadiest?');
    await press('Tab', 'Tab');
    await page.keyboard.type('Tail');
    await press('Tab', 'Tab');
    await page.keyboard.type('2,5 4; 6 cm; big 8,5');
    await press('Enter');
    expect(await problem('factors.0.levels').innerText()).toContain('Some levels');
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('2,5 4 6');
    await press('Enter');
    const plan = await sent();
    expect(plan.question).toBe('Which tail is steadiest?');
    expect(plan.factors[0]).toMatchObject({ kind: 'own', key: 'tail', name: 'Tail' });
    expect(plan.factors[0]?.levels).toEqual([
      { label: '2,5', value: 2.5 },
      { label: '4', value: 4 },
      { label: '6', value: 6 },
    ]);
    expect(plan).toMatchObject({ rounds: 3, order: 'random', design: 'single' });
    await page.locator('.plan-form').waitFor({ state: 'detached' });
  });

  it('starts from the plan in a file, once it has been looked at; what is none is said', async () => {
    await press('q');
    const put = (name: string, text: string) =>
      field('plan-file').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
    await put('notes.json', '{"plans": 3}');
    await page.locator('#plan-file-fault', { hasText: 'no plan' }).waitFor();
    await put('group-b.zip', 'no archive');
    await page.locator('#plan-file-fault', { hasText: 'There is no plan in it' }).waitFor();
    await expectAccessible(page);
    const plan = bladesPlan(7);
    const file = zipSync({ 'plan.json': strToU8(JSON.stringify({ plan, predictions: {}, isCovered: false })) });
    await field('plan-file').setInputFiles({ name: 'group-b.zip', mimeType: 'application/zip', buffer: Buffer.from(file) });
    await expect.poll(() => field('question').inputValue()).toBe(plan.question);
    await page.locator('#plan-file-fault').waitFor({ state: 'detached' });
    expect(stand.feed.posted).toEqual([]);
    await field('question').press('Enter');
    expect(await sent()).toEqual(plan);
  });

  it('starts from a ready question, and shows its runs and how long they take', async () => {
    await press('q');
    await page.getByRole('button', { name: 'number of blades' }).click();
    expect(await field('question').inputValue()).toBe('How many blades give the most power?');
    expect(await field('factors.0.levels').inputValue()).toBe('2 3 4 6');
    // Four levels in three rounds at 90 s.
    expect(await page.locator('.plan-time').innerText()).toContain('12 runs, about 18 min');
    const rounds = await page.locator('.plan-preview dd').allInnerTexts();
    expect(rounds.map((text) => text.split(/\s+/).sort().join(' '))).toEqual(Array(3).fill('2 3 4 6'));
    await page.getByRole('button', { name: 'Start this plan' }).click();
    expect((await sent()).factors[0]?.key).toBe('blades');
  });

  it('says at each field what is in the way, keeps what was typed, and leads there', async () => {
    await press('q');
    await page.getByRole('button', { name: 'blade angle' }).click();
    await typeInto('factors.0.levels', '10 25 95');
    await typeInto('rounds', 'three');
    await typeInto('finishBy', 'noon');
    await press('Enter');
    expect(await problem('rounds').innerText()).toBe('A whole number, 1–20.');
    expect(await problem('finishBy').innerText()).toBe('A time of day, like 14:45.');
    expect(await page.getByRole('alert').innerText()).toBe('2 things to mend first.');
    expect(await page.evaluate('document.activeElement.name')).toBe('rounds');
    expect(await field('rounds').getAttribute('aria-describedby')).toBe('problem-rounds');
    await typeInto('rounds', '3');
    const hourAgo = await page.evaluate(() => {
      const then = new Date(Date.now() - 3_600_000);
      return `${then.getHours()}:${String(then.getMinutes()).padStart(2, '0')}`;
    });
    await typeInto('finishBy', hourAgo);
    await page.getByText(/^\d\d:\d\d is over: no round fits before it\.$/).waitFor();
    await typeInto('finishBy', '14.45');
    // Now the core can look at the plan as a whole.
    expect(await problem('factors.0.levels').innerText()).toMatch(/A blade angle is from 0° .* to 90°/);
    expect(await field('factors.0.levels').inputValue()).toBe('10 25 95');
    await typeInto('factors.0.levels', '10 25 85');
    await press('Enter');
    expect(await sent()).toMatchObject({ finishBy: '14:45', rounds: 3 });
  });

  it('loses nothing when it is folded, when the page is loaded anew, and when it is refused', async () => {
    await press('q');
    await page.keyboard.type('Half a ques');
    await press('Escape');
    expect(await page.locator('.plan-form').count()).toBe(0);
    await press('q');
    expect(await field('question').inputValue()).toBe('Half a ques');
    await page.reload();
    await page.locator('.band[data-stage="waiting"]').waitFor();
    await press('q');
    expect(await field('question').inputValue()).toBe('Half a ques');
    await page.getByRole('button', { name: 'blade length' }).click();
    stand.feed.refuseWith = 'The disk is full.';
    await page.getByRole('button', { name: 'Start this plan' }).click();
    await page.locator('.notice.alarm', { hasText: 'The disk is full.' }).waitFor();
    expect(await field('factors.0.levels').inputValue()).toMatch(/^short, 55.mm; medium/);
  });

  it('takes a second factor, a reference, groups and what is held constant', async () => {
    await press('q');
    await page.getByRole('button', { name: 'blade angle' }).click();
    await page.getByRole('button', { name: 'Change one more thing' }).click();
    await field('factors.1.kind').selectOption('length');
    expect(await field('factors.1.name').inputValue()).toBe('Blade length');
    await typeInto('factors.1.levels', 'short 6 cm, long 10 cm');
    await page.getByText('one after the other').click();
    await field('factors.1.base').selectOption({ index: 1 });
    await typeInto('reference', '6');
    await page.getByLabel('Reference run before every: Blade angle').selectOption('20°');
    await typeInto('groups', 'red table, blue table');
    await page.getByLabel('What 7').fill('Humidity');
    await page.getByLabel('How 7').fill('dry');
    await page.getByRole('button', { name: 'Start this plan' }).click();
    const plan = await sent();
    expect(plan).toMatchObject({ design: 'series', groups: ['red table', 'blue table'] });
    expect(plan.factors[1]).toMatchObject({ key: 'length_m', baseLevel: 1 });
    expect(plan.factors[1]?.levels.map(({ value }) => value)).toEqual([0.06, 0.1]);
    expect(plan.reference).toEqual({ every: 6, levels: [1, 0] });
    expect(plan.constants.at(-1)).toEqual({ name: 'Humidity', value: 'dry' });
  });

  it('says why the listed order is weaker', async () => {
    await press('q');
    await page.getByRole('button', { name: 'blade angle' }).click();
    expect(await page.locator('.plan-form').innerText()).not.toContain('creeps');
    await page.getByText('as listed').click();
    expect(await page.locator('.plan-form').innerText()).toMatch(/listed order anything that creeps/);
  });

  it('changes a plan in the middle: what was done stays, only the rest is shown', async () => {
    stand.feed.show(...plannedMessages('set-blades'));
    await page.locator('.rail').waitFor();
    await press('q');
    expect(await field('factors.0.levels').inputValue()).toBe('10 25 40 55 80');
    expect(await page.locator('.plan-form').innerText()).toContain('What was logged stays.');
    // Nine of fifteen are done.
    expect(await page.locator('.plan-time').innerText()).toContain('6 runs');
    await typeInto('rounds', '4');
    expect(await page.locator('.plan-time').innerText()).toContain('11 runs');
    await page.getByRole('button', { name: 'Change the plan' }).click();
    expect((await sent()).rounds).toBe(4);
    stand.feed.show(...messagesOf('waiting'));
  });

  it('leaves keys alone while something is typed', async () => {
    await press('q');
    await page.keyboard.type('xdsmz');
    expect(await field('question').inputValue()).toBe('xdsmz');
    expect(await page.locator('html').getAttribute('data-theme')).toBe('light');
  });

  it('leaves the steps and the power in sight however far it is scrolled, and covers no field with them', async () => {
    await press('q');
    await page.getByRole('button', { name: 'blade length' }).click();
    for (let factors = 1; factors < 3; factors += 1) await page.getByRole('button', { name: 'Change one more thing' }).click();
    const band = async () => (await page.locator('.band').boundingBox())!;
    await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
    expect(await page.evaluate('scrollY')).toBeGreaterThan(300);
    expect((await band()).y).toBe(0);
    // Back to the first field with the keyboard, as the Tab order leads.
    await field('groups').focus();
    for (let back = 0; back < 12; back += 1) await press('Shift+Tab');
    const focused = (await page.locator(':focus').boundingBox())!;
    const { y, height } = await band();
    expect(focused.y).toBeGreaterThanOrEqual(y + height);
  });

  it('leads to what is unfolded from the foot of a page that is scrolled', async () => {
    await press('q');
    await page.getByRole('button', { name: 'Keys' }).click();
    const keys = (await page.locator('.keys-panel').boundingBox())!;
    const band = (await page.locator('.band').boundingBox())!;
    expect(keys.y).toBeGreaterThanOrEqual(band.y + band.height);
    expect(keys.y + keys.height).toBeLessThanOrEqual(LAPTOP.height);
  });

  it('ends a plan', async () => {
    stand.feed.show(...plannedMessages('set-blades'));
    await page.locator('.rail').waitFor();
    await press('q');
    await page.getByRole('button', { name: 'End the plan' }).click();
    await expect.poll(() => stand.feed.posted.map(({ body }) => body)).toEqual([{ say: 'plan', plan: null }]);
    stand.feed.show(...messagesOf('waiting'));
  });

  describe.each([PROJECTOR, LAPTOP, PHONE])('at $name pixels', (sheet) => {
    it.each(['light', 'dark'] as const)('is laid out well and for everyone, %s', async (scheme) => {
      await page.setViewportSize({ width: sheet.width, height: sheet.height });
      await page.emulateMedia({ colorScheme: scheme });
      await page.getByRole('button', { name: /^Plan/ }).click();
      await page.getByRole('button', { name: 'blade length' }).click();
      await typeInto('rounds', '0');
      await page.getByRole('button', { name: 'Start this plan' }).click();
      await problem('rounds').waitFor();
      await settleFrames(page);
      expect(overlaps(await visibleTexts(page))).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(sheet.width);
      await expectAccessible(page);
    });
  });

  it('throws no error and breaks no policy on the way', () => {
    // A refusal is told to the person; the browser logs it besides.
    expect(problems.filter((text) => !text.includes('409'))).toEqual([]);
  });
});
