/** The bench page with a plan: rail, steps, questions, putting right, taught keys, cover. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { expectAccessible } from './support/accessible.ts';
import { openPage, SHEETS } from './support/browser.ts';
import { bandWords, settleFrames } from './support/inspect.ts';
import { plannedMessages, RUNS } from './support/plan-scenes.ts';
import { describeOnStand } from './support/stand.ts';

const [, LAPTOP] = SHEETS;
if (LAPTOP === undefined) throw new Error('no sheet');

describeOnStand('the bench page with a plan', (stand) => {
  let page: Page;
  let problems: string[];
  beforeAll(async () => {
    stand.feed.show(...plannedMessages('settling'));
    const options = { sheet: LAPTOP, scheme: 'light' } as const;
    ({ page, problems } = await openPage(stand.browser, stand.feed.url, options));
    await page.locator('.rail').waitFor();
  });
  afterAll(() => page.context().close());
  beforeEach(() => {
    stand.feed.posted.length = 0;
  });

  const show = async (name: string): Promise<void> => {
    stand.feed.show(...plannedMessages(name));
    await settleFrames(page);
    await settleFrames(page);
  };
  const posted = (): unknown[] => stand.feed.posted.map(({ body }) => body);
  const cell = (at: number) => page.locator(`.cell[data-run="${RUNS[at]?.id}"]`);
  const count = (selector: string): Promise<number> => page.locator(selector).count();
  const classOf = (at: number): Promise<string | null> => cell(at).getAttribute('class');

  describe('the rail', () => {
    it('has a cell a run: done, now, to come, each in a form of its own', async () => {
      await show('settling');
      expect(await count('.cell')).toBe(15);
      expect(await page.locator('.round > p').allInnerTexts()).toEqual(['Round 1', 'Round 2', 'Round 3']);
      expect([await classOf(0), await classOf(9), await classOf(10)]).toEqual([
        'cell done',
        'cell now',
        'cell open',
      ]);
      expect(await cell(9).innerText()).toMatch(/40°\s+now/);
      expect([await cell(0).locator('.dash').count(), await cell(10).locator('.dash').count()]).toEqual([1, 0]);
    });
    it('once logged: the run is done and the next one is next', async () => {
      await show('logged');
      expect(await classOf(9)).toBe('cell done fresh');
      expect(await cell(10).innerText()).toMatch(/10°\s+next/);
    });
    it('strikes through what is left out', async () => {
      await show('skipped');
      expect(await cell(12).locator('s').innerText()).toMatch(/°$/);
      expect(await cell(12).innerText()).toContain('left out');
    });
    it('marks reference runs and repeats by form, and names them', async () => {
      await show('named');
      expect(await count('.cell .reference')).toBeGreaterThan(1);
      expect(await page.locator('.cell:has(.reference)').first().innerText()).toContain('reference');
      expect(await page.locator('.cell', { hasText: 'blades stay as they are' }).count()).toBe(12);
    });
    it('scrolls by itself so that now is in view, and the page does not', async () => {
      await show('many');
      const now = await page.locator('.cell.now').boundingBox();
      expect(now?.x ?? -1).toBeGreaterThan(0);
      expect((now?.x ?? 0) + (now?.width ?? 0)).toBeLessThan(1280);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(1280);
    });
  });

  describe('what the band says', () => {
    it.each([
      ['stop-fan', 'Stop the fan.', /Touch nothing yet/],
      ['blades-stopping', 'Wait. Blades still turning.', /./],
      ['set-blades', 'Set blades to 40°.', /nothing may turn\. Fan off\?/],
      ['set-blades-unheard', 'Set blades to 40°.', /is the fan off, and does nothing turn/],
      ['start-fan', 'Stand back. Start the fan.', /Hands, hair and sleeves clear/],
      ['settling', 'Hands off. Almost still.', /threads loose/],
      ['logged', 'Still. Logged.', /Now stop the fan\. Wait for the blades to stop\. Then set 10°\./],
      ['finished', 'All runs are done.', /./],
      ['paused', 'Wait. Not logging.', /until you go on/],
    ])('%s', async (name, instruction, says) => {
      await show(name);
      const band = await bandWords(page);
      expect(band.instruction).toBe(instruction);
      expect(`${band.moving} ${band.detail}`).toMatch(says);
    });
    it('never tells anyone to set blades while the readings say that they turn', async () => {
      await show('set-blades-turning');
      const { instruction, moving, detail } = await bandWords(page);
      expect(`${instruction} ${moving} ${detail}`).not.toMatch(/set /i);
      expect(await count('[data-action="next"]')).toBe(0);
    });
    it('shows the level in the page’s own figures, and how far its repeats have come', async () => {
      await show('settling');
      expect(await page.locator('.level-now .figure').getAttribute('data-text')).toBe('40°');
      expect(await page.locator('.level-now').innerText()).toContain('2 of 3');
      expect(await page.locator('.level-now .sign').count()).toBe(3);
      await show('factorial');
      expect(await page.locator('.level-now .others').innerText()).toMatch(/^short, 60.mm$/);
      await show('named');
      expect(await page.locator('.level-now .named').innerText()).toBe('rounded by sandpaper');
    });
    it('yellow is the band’s alone, and only once it is logged', async () => {
      const colour = () => page.locator('.band').evaluate((band) => getComputedStyle(band).backgroundColor);
      await show('logged');
      await expect.poll(colour).toBe('rgb(255, 210, 31)');
      await show('settling');
      await expect.poll(colour).toBe('rgb(245, 247, 245)');
    });
  });

  describe('what is found of the rig', () => {
    it('is told with why and what to do, and is over when it is meant so', async () => {
      await show('lamp-loose');
      const told = page.locator('[data-finding="no-current"]');
      await told.waitFor();
      const words = (await told.innerText()).replaceAll('\u202f', ' ');
      expect(words).toMatch(/^2\.4 V, but no current\. The lamp takes nothing.*Stop the fan\./);
      // One at a time.
      expect(await count('.rig-finding')).toBe(1);
      await told.getByRole('button', { name: 'It is meant so' }).click();
      const accepted = { say: 'accept-finding', kind: 'no-current', channel: 'current_A' };
      await expect.poll(posted).toContainEqual(accepted);
      await show('settling');
      await expect.poll(() => count('.rig-finding')).toBe(0);
    });
  });

  describe('questions', () => {
    it('stand in a line with their answers, by key and by button', async () => {
      await show('is-fan-on');
      await page.keyboard.press('1');
      await page.getByRole('button', { name: 'No, it is off' }).click();
      await expect.poll(posted).toEqual([
        { say: 'fan-is-on', on: true },
        { say: 'fan-is-on', on: false },
      ]);
      expect(await count('dialog, [role=dialog]')).toBe(0);
    });
    it('what will not settle: average, leave out, or wait', async () => {
      await show('unsettled');
      for (const key of ['1', '2', '3']) await page.keyboard.press(key);
      await expect.poll(posted).toEqual([
        { say: 'average' },
        { say: 'skip', runId: RUNS[9]?.id },
        { say: 'leave-it' },
      ]);
    });
    it('a trial that no run asked for: the run at work, another one, or none', async () => {
      await show('unassigned');
      await page.keyboard.press('1');
      await page.keyboard.press('3');
      await expect.poll(posted).toEqual([
        { kind: 'move', trialId: 9, runId: RUNS[9]?.id },
        { say: 'leave-it' },
      ]);
      await page.keyboard.press('2');
      await page.locator('.run-line').waitFor();
      await page.keyboard.press('Escape');
    });
    it('never stand in the way of logging', async () => {
      await show('unsettled');
      stand.feed.show(...plannedMessages('logged'));
      await page.locator('.band[data-stage="logged"]').waitFor();
      expect(await count('.question-line')).toBe(0);
    });
  });

  describe('the answer plot', () => {
    const xOf = async (trial: number): Promise<number> => {
      const box = await page.locator(`.mark[data-trial="${trial}"] > path`).first().boundingBox();
      return (box?.x ?? NaN) + (box?.width ?? NaN) / 2;
    };
    it('stands by levels at their true distance, with a mean where a level was set twice', async () => {
      await show('settling');
      const lines = await page.locator('.mean > .interval').evaluateAll((all) =>
        all.map((one) => Number(one.getAttribute('x1'))).sort((a, b) => a - b),
      );
      // 10°, 25°, 40° and 55°.
      const [at10 = NaN, at25 = NaN, at40 = NaN, at55 = NaN] = lines;
      expect(lines).toHaveLength(4);
      expect(at25 - at10).toBeGreaterThan(20);
      expect(at40 - at25).toBeCloseTo(at25 - at10, 3);
      expect(at55 - at40).toBeCloseTo(at25 - at10, 3);
      // 10°, 25° and 55° twice; 40° once; 80° did not turn.
      expect([await count('.ring'), await count('.mean.least')]).toEqual([3, 1]);
      expect(await page.locator('.mean.least text').textContent()).toBe('at least');
      expect(await count('.mark.notTurning .slot')).toBe(2);
      expect(await page.locator('.name.now').textContent()).toBe('40°');
    });
    it('hides no trial behind another of its level', async () => {
      await show('settling');
      const boxes = await page.locator('.mark > path:first-of-type').evaluateAll((all) =>
        all.map((one) => {
          const { x, y, width, height } = (one as SVGPathElement).getBBox();
          return [x, x + width, y, y + height];
        }),
      );
      const hidden = boxes.filter(([left = 0, right = 0, top = 0, bottom = 0], i) =>
        boxes.some(([l = 0, r = 0, t = 0, b = 0], j) =>
          i < j && l < right - 0.1 && left < r - 0.1 && t < bottom - 0.1 && top < b - 0.1,
        ),
      );
      expect([boxes.length > 5, hidden]).toEqual([true, []]);
    });
    it('has the cord end at the level at work', async () => {
      await show('logged');
      const end = Number(await page.locator('.threads .cord').getAttribute('x2'));
      const path = await page.locator('.mark.now .dash').getAttribute('d');
      expect(Math.abs(end - Number(/^M([\d.]+)/.exec(path ?? '')?.[1]))).toBeLessThan(1.5);
    });
    it('keeps a place for trials that no run has', async () => {
      await show('unassigned');
      expect(await page.locator('.answer-plot .name').last().textContent()).toBe('no run');
      expect(await xOf(9)).toBeGreaterThan(await xOf(3));
      expect(await page.locator('.row[data-trial="9"] .set').innerText()).toBe('no run');
    });
    it('tells a second factor apart by form, and says which is which', async () => {
      await show('factorial');
      const forms = await page.locator('.mark.good > path.dash').evaluateAll((all) =>
        all.map((one) => (one.getAttribute('d') ?? '').split('M').length - 1),
      );
      expect(new Set(forms)).toEqual(new Set([1, 2]));
      expect(await page.locator('.beside-names').innerText()).toMatch(/short, 60.mm\s+long, 100.mm/);
    });
    it('stands otherwise by X: number, wind, levels', async () => {
      await show('settling');
      const pressed = () => page.locator('.choice [aria-pressed="true"]').innerText();
      const seen = [await pressed()];
      for (let i = 0; i < 3; i++) {
        await page.keyboard.press('x');
        seen.push(await pressed());
      }
      expect(seen).toEqual(['Power by blade angle', 'each trial', 'against wind', 'Power by blade angle']);
    });
  });

  describe('the answer', () => {
    it('says which can’t be told apart, and no curve before the runs are done', async () => {
      await show('settling');
      expect(await page.locator('.sentence').innerText()).toMatch(/^25° is highest so far, but can’t/);
      expect([await count('.line-of-fit'), await count('.bracket')]).toEqual([0, 0]);
    });
    it('adds what should be run next to the plan, each level as often as advised', async () => {
      await show('finished');
      expect(await page.locator('.sentence').innerText()).toBe(
        '25° is highest so far, but can’t be told apart from 40° yet.',
      );
      expect([await count('.line-of-fit'), await count('.bracket')]).toEqual([1, 1]);
      await page.getByRole('button', { name: 'Do these' }).click();
      await expect.poll(() => posted().length).toBe(4);
      const wanted = [25, 40, 40, 25].map((angle) => ({ say: 'again', runId: `r3 angle_deg=${angle}` }));
      expect(posted()).toEqual(wanted);
    });
  });

  describe('putting right', () => {
    it('moves a trial to the run that is chosen by arrow keys', async () => {
      await show('settling');
      await page.keyboard.press('u');
      await page.locator('.run-line').waitFor();
      expect(await page.locator('.run-line').innerText()).toMatch(/Which run was trial 9\?.*Round 2, 55°/s);
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Enter');
      await expect.poll(posted).toEqual([{ kind: 'move', trialId: 9, runId: RUNS[9]?.id }]);
      expect(await count('.run-line')).toBe(0);
    });
    it('moves it by tapping, or to no run', async () => {
      await page.getByRole('button', { name: 'Move: trial 7' }).click();
      await cell(3).click();
      await page.getByRole('button', { name: 'It was this one' }).click();
      await page.getByRole('button', { name: 'Move: trial 7' }).click();
      await page.keyboard.press('0');
      await expect.poll(posted).toEqual([
        { kind: 'move', trialId: 7, runId: RUNS[3]?.id },
        { kind: 'move', trialId: 7, runId: null },
      ]);
    });
    it('does a run now, leaves it out, and does it once more', async () => {
      for (const name of ['Do it now', 'Leave it out', 'Once more']) {
        await cell(11).click();
        await page.getByRole('button', { name }).click();
      }
      const runId = RUNS[11]?.id;
      await expect.poll(posted).toEqual([
        { say: 'take-up', runId },
        { say: 'skip', runId },
        { say: 'again', runId },
      ]);
    });
    it('takes back what was done last, and says what that is', async () => {
      await show('logged');
      expect(await page.locator('.undo').innerText()).toMatch(/^Undo: striking trial 3/);
      await page.keyboard.press('z');
      await page.keyboard.press('Control+z');
      await page.locator('.undo').click();
      await expect.poll(posted).toEqual([{ say: 'undo' }, { say: 'undo' }, { say: 'undo' }]);
      await show('settling');
      await page.keyboard.press('z');
      expect(await count('.undo')).toBe(0);
      expect(posted()).toHaveLength(3);
    });
    it('logs now, waits, goes on, and repeats the chosen trial’s run', async () => {
      await show('settling');
      await page.locator('.row[data-trial="9"]').click();
      for (const key of ['l', 'w', 'a']) await page.keyboard.press(key);
      await show('paused');
      await page.keyboard.press('w');
      await show('set-blades-unheard');
      await page.keyboard.press('i');
      await expect.poll(posted).toEqual([
        { say: 'log-now' },
        { say: 'wait' },
        { say: 'again', runId: RUNS[8]?.id },
        { say: 'go-on' },
        { say: 'is-set' },
      ]);
    });
    it('says what makes a trial doubtful, beside it', async () => {
      await show('doubt');
      const doubt = await page.locator('.row[data-trial="7"] .doubt').innerText();
      expect(doubt.replaceAll('\u202f', ' ')).toBe(
        'Trial 7 lies 12 % away from its repeats. Was the setting right?',
      );
    });
  });

  describe('keys that are taught', () => {
    const teach = async (action: string, key: string): Promise<void> => {
      await page.locator(`[data-teach="${action}"]`).click();
      await page.keyboard.press(key);
    };
    it('do what they were taught, are kept, and are forgotten', async () => {
      await show('settling');
      await page.getByRole('button', { name: 'Keys', exact: true }).click();
      await teach('log', 'PageDown');
      await teach('again', '.');
      // "b" takes a board up unless it was taught something else.
      await teach('strike', 'b');
      expect(await page.locator('.taught').allInnerTexts()).toEqual(['Page Down', '.', 'B']);
      await page.reload();
      await page.locator('.rail').waitFor();
      await page.keyboard.press('PageDown');
      await page.keyboard.press('.');
      await expect.poll(posted).toEqual([{ say: 'log-now' }, { say: 'again', runId: RUNS[8]?.id }]);
      await page.keyboard.press('b');
      await page.locator('.editor input').waitFor();
      // In a text field it is a letter.
      await page.keyboard.type('b.');
      expect(await page.locator('.editor input').inputValue()).toBe('b.');
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Keys', exact: true }).click();
      await page.getByRole('button', { name: 'Forget' }).first().click();
      expect(await page.locator('.taught').count()).toBe(2);
      await page.locator('[data-teach="log"]').click();
      await page.keyboard.press('Escape');
      expect(await page.locator('.taught').count()).toBe(2);
      await expectAccessible(page);
      await page.getByRole('button', { name: 'Keys', exact: true }).click();
      await page.evaluate('localStorage.clear()');
      await page.reload();
      await page.locator('.rail').waitFor();
    });
  });

  describe('cover and reveal', () => {
    it('hides marks, means and the sentence, but not what is measured now', async () => {
      await show('covered');
      expect([await count('.mark'), await count('.mean')]).toEqual([0, 0]);
      expect(await page.locator('.said').innerText()).toContain('What do you expect?');
      expect(await page.locator('.said').innerText()).not.toMatch(/mW/);
      expect(await page.locator('.power .figure').getAttribute('data-text')).toBe('240');
      await page.keyboard.press('c');
      await page.getByLabel('Votes for 55°').fill('3');
      await page.keyboard.press('Enter');
      await expect.poll(posted).toEqual([{ say: 'reveal' }, { say: 'predict', level: '55°', votes: 3 }]);
    });
    it('shows what the class expected beside the outcome once it is revealed', async () => {
      await show('revealed');
      expect(await page.locator('.tally').innerText()).toMatch(/The class expected\s+25°\s+12\s+40°\s+7\s+80°\s+1/);
      expect(await count('.mark')).toBe(9);
      await page.keyboard.press('c');
      await expect.poll(posted).toEqual([{ say: 'cover' }]);
    });
    it('takes votes before the first trial', async () => {
      await show('nothing-done');
      expect(await page.getByLabel('Votes for 25°').inputValue()).toBe('12');
    });
  });

  it('throws no error and breaks no policy on the way', () => {
    expect(problems).toEqual([]);
  });
});
