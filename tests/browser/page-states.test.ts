/** Every state of the bench page, at the three sizes: what it says, draws, and leaves unsaid. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPage, SHEETS } from './support/browser.ts';
import {
  bandWords,
  drawnPixels,
  overlaps,
  powerFigure,
  settleFrames,
  visibleTexts,
} from './support/inspect.ts';
import { NO_EXPERIMENT } from '#core/experiment/view.ts';
import { ROTOR_AND_AIR } from '../support/budgets.ts';
import { messagesOf, SCENES, status, trial, type Snapshot } from './support/scenes.ts';
import { describeOnStand } from './support/stand.ts';

/** What the band says in each scene: stage, instruction, a part of the lines below, figure. */
interface Expected {
  readonly stage: string;
  readonly instruction: string;
  readonly says: RegExp;
  /** Text and weights of the power figure. */
  readonly figure: RegExp;
  readonly uncertainty?: RegExp;
}

const EXPECTED: Readonly<Record<string, Expected>> = {
  waiting: {
    stage: 'waiting',
    instruction: 'Start the fan.',
    says: /No wind yet.*Trial 8, 259 ± 4 mW/s,
    figure: /^0 0$/,
  },
  'spinning-up': {
    stage: 'spinning-up',
    instruction: 'Stand back. Spinning up.',
    says: /All 24 threads loose/,
    figure: /^\d+ 0+$/,
  },
  settling: {
    stage: 'settling',
    instruction: 'Hands off. Almost still.',
    says: /\d+ of 24 threads loose\. Current still rises: \d mA in 10 s/,
    figure: /^240 1\d0$/,
    uncertainty: /^± 3 so far$/,
  },
  hold: {
    stage: 'hold',
    instruction: 'Hold still.',
    says: /All threads joined\. 3 s left/,
    figure: /^243 110$/,
    uncertainty: /^± 3 so far$/,
  },
  still: {
    stage: 'still',
    instruction: 'Still.',
    says: /Recording: 3 s so far/,
    figure: /^243 111$/,
    uncertainty: /^± 3 so far$/,
  },
  logged: {
    stage: 'logged',
    instruction: 'Still. Logged.',
    says: /Now stop the fan\..*Trial 9, 243 ± 3 mW, was saved at \d\d:\d\d:31/s,
    figure: /^243 111$/,
    uncertainty: /^± 3$/,
  },
  disturbed: {
    stage: 'disturbed',
    instruction: 'Bumped! Wait again.',
    says: /Wind goes up and down.*Nothing is lost/s,
    figure: /^19\d 1[01]0$/,
  },
  'running-down': {
    stage: 'running-down',
    instruction: 'Wait. Blades still turning.',
    says: /still falls/,
    figure: /^\d+ 0+$/,
  },
  unsettled: {
    stage: 'unsettled',
    instruction: 'It keeps hunting.',
    says: /waiting won’t stop it\..*slipping blade/s,
    figure: /^2\d\d 1?0+$/,
  },
  unplugged: {
    stage: 'unplugged',
    instruction: 'Board unplugged.',
    says: /Push the cable in/,
    figure: /^––– 000$/,
  },
  silent: {
    stage: 'silent',
    instruction: 'Board is silent.',
    says: /Push the cable in/,
    figure: /^––– 000$/,
  },
  busy: {
    stage: 'refused',
    instruction: 'Board is in use.',
    says: /Another program has this port open/,
    figure: /^––– 000$/,
  },
  denied: {
    stage: 'refused',
    instruction: 'Not allowed yet.',
    says: /usermod -aG dialout/,
    figure: /^––– 000$/,
  },
  starting: {
    stage: 'starting',
    instruction: 'Board is starting.',
    says: /first reading/,
    figure: /^––– 000$/,
  },
  'no-board': {
    stage: 'no-board',
    instruction: 'Plug the board in.',
    says: /No board found yet/,
    figure: /^––– 000$/,
  },
  unreadable: {
    stage: 'unreadable',
    instruction: 'Can’t read the board.',
    says: /serial speed.*voltage_V,current_mA/s,
    figure: /^––– 000$/,
  },
  unmapped: {
    stage: 'unmapped',
    instruction: 'Which number is what?',
    says: /first line like: time_ms/,
    figure: /^––– 000$/,
  },
  'no-trials': {
    stage: 'waiting',
    instruction: 'Start the fan.',
    says: /No wind yet/,
    figure: /^0 0$/,
  },
  simulated: {
    stage: 'logged',
    instruction: 'Still. Logged.',
    says: /Now stop the fan/,
    figure: /^243 111$/,
  },
  'did-not-turn': {
    stage: 'logged',
    instruction: 'Logged. It did not turn.',
    says: /Trial 9: it did not turn/,
    figure: /^0\.0 111$/,
  },
  'saving-stopped': {
    stage: 'still',
    instruction: 'Still.',
    says: /Not logged: saving has stopped/,
    figure: /^24[23] 111$/,
  },
  offered: {
    stage: 'waiting',
    instruction: 'Start the fan.',
    says: /No wind yet/,
    figure: /^0 0$/,
  },
};

/** Scenes in which readings come, so that curves must be seen. */
const WITHOUT_CURVES = new Set(['starting', 'no-board', 'unreadable', 'unmapped']);

describeOnStand('the bench page in every state', (stand) => {
  it('has an expectation for every scene', () => {
    expect(Object.keys(EXPECTED).sort()).toEqual(Object.keys(SCENES).sort());
  });

  describe.each(SHEETS)('at $name pixels', (sheet) => {
    let page: Page;
    let problems: string[];
    beforeAll(async () => {
      ({ page, problems } = await openPage(stand.browser, stand.feed.url, {
        sheet,
        scheme: sheet.name === '1280' ? 'dark' : 'light',
      }));
    });
    afterAll(() => page.context().close());

    const showScene = async (name: string): Promise<void> => {
      stand.feed.show(...messagesOf(name));
      await page.locator(`.band[data-stage="${EXPECTED[name]?.stage}"]`).waitFor();
      await settleFrames(page);
    };

    it.each(Object.entries(EXPECTED))('%s', async (name, expected) => {
      await showScene(name);
      // Two scenes may share a stage: the words of the second come a moment after it is waited for.
      const instruction = async (): Promise<string> =>
        (await bandWords(page)).instruction.replaceAll('\n', ' ');
      await expect.poll(instruction).toBe(expected.instruction);
      const { moving, detail } = await bandWords(page);
      expect(`${moving}\n${detail}`).toMatch(expected.says);
      const { text, heavy } = await powerFigure(page);
      expect(`${text} ${heavy}`).toMatch(expected.figure);
      const uncertainty = (await page.locator('.uncertainty').innerText())
        .replaceAll('\u202f', ' ')
        .trim();
      expect(uncertainty).toMatch(expected.uncertainty ?? /^(± [\d.]+( so far)?)?$/);
      expect(overlaps(await visibleTexts(page))).toEqual([]);
      await expectWithinPage();
      if (!WITHOUT_CURVES.has(name)) {
        for (const drawn of await drawnPixels(page)) expect(drawn).toBeGreaterThan(50);
      }
    });

    /** Nothing sticks out at the side; on a laptop nothing needs the page to be scrolled. */
    async function expectWithinPage(): Promise<void> {
      const size = await page.evaluate(() => {
        const { scrollWidth, scrollHeight } = document.documentElement;
        return { scrollWidth, scrollHeight, innerWidth, innerHeight };
      });
      expect(size.scrollWidth).toBeLessThanOrEqual(size.innerWidth);
      if (sheet.width > 760) expect(size.scrollHeight).toBeLessThanOrEqual(size.innerHeight);
      for (const { text, left, right } of await visibleTexts(page)) {
        expect(`${text}: ${left >= 0 && right <= sheet.width}`).toBe(`${text}: true`);
      }
    }

    it('throws no error and breaks no policy on the way', () => {
      expect(problems).toEqual([]);
    });
  });
});

describeOnStand('what each state draws', (stand) => {
  let page: Page;
  beforeAll(async () => {
    const sheet = SHEETS[1];
    if (sheet === undefined) throw new Error('no sheet');
    ({ page } = await openPage(stand.browser, stand.feed.url, { sheet, scheme: 'light' }));
  });
  const show = async (name: string): Promise<void> => {
    stand.feed.show(...messagesOf(name));
    await page.locator(`.band[data-stage="${EXPECTED[name]?.stage}"]`).waitFor();
    await settleFrames(page);
  };
  const count = (selector: string): Promise<number> => page.locator(selector).count();
  const bandColour = (): Promise<string> =>
    page.locator('.band').evaluate((band) => getComputedStyle(band).backgroundColor);
  /** The ground fades for 400 ms. */
  const bandColourIs = async (colour: string): Promise<void> =>
    expect.poll(bandColour, { timeout: 5000 }).toBe(colour);

  it('an outlined slot waits until settled, then it is filled', async () => {
    await show('hold');
    expect([await count('.threads .slot'), await count('.threads .dash')]).toEqual([1, 0]);
    await show('still');
    expect([await count('.threads .slot'), await count('.threads .dash')]).toEqual([0, 1]);
  });
  it('yellow means logged, nothing else', async () => {
    for (const name of Object.keys(EXPECTED).filter((one) => EXPECTED[one]?.stage !== 'logged')) {
      await show(name);
      await bandColourIs('rgb(245, 247, 245)');
    }
    await show('logged');
    await bandColourIs('rgb(255, 210, 31)');
  });
  it('loose threads are thin and apart from the cord; spinning up there is no cord', async () => {
    await show('settling');
    const loose = await count('.threads .loose');
    expect(loose).toBeGreaterThan(2);
    expect(loose).toBeLessThan(24);
    expect(await count('.threads .cord')).toBe(1);
    await show('spinning-up');
    expect([await count('.threads .loose'), await count('.threads .cord')]).toEqual([24, 0]);
  });
  it('the cord of all threads is as thick as the dash it becomes', async () => {
    await show('logged');
    const cord = page.locator('.threads .cord');
    expect(Number(await cord.getAttribute('stroke-width'))).toBeCloseTo(0.45 * 16, 5);
    const mark = await page.locator('.mark.now .dash').boundingBox();
    const y = Number(await cord.getAttribute('y1'));
    const field = await page.locator('.field').boundingBox();
    expect(Math.abs((mark?.y ?? 0) + (mark?.height ?? 0) / 2 - (field?.y ?? 0) - y)).toBeLessThan(
      3,
    );
  });
  it('disturbed: dashed threads and a hatched edge', async () => {
    await show('disturbed');
    expect(await count('.threads.broken path.loose')).toBeGreaterThan(0);
    expect(await count('.band.hatched')).toBe(1);
  });
  it('cut off: a frayed cord that ends before the plot, greyed numbers as dashes', async () => {
    await show('unplugged');
    expect(await count('.threads.frayed path')).toBeGreaterThan(4);
    expect(await count('.band.hatched')).toBe(1);
    expect(await page.locator('.last-power').innerText()).toMatch(/last logged\s+259\smW/);
    expect(
      await page
        .locator('.strip-reading .figure')
        .evaluateAll((all) => all.map((one) => one.getAttribute('data-text'))),
    ).toEqual(['–', '–', '–']);
  });
  it('waiting: a dotted line along the floor', async () => {
    await show('waiting');
    expect(await count('.dotted')).toBe(1);
    expect(await count('.threads')).toBe(0);
  });
  it('the link has a sign of its own: bar, broken bar, ring', async () => {
    for (const [name, sign] of [
      ['settling', 'bar'],
      ['unplugged', 'broken'],
      ['simulated', 'ring'],
    ] as const) {
      await show(name);
      expect(await page.locator('.link-sign').getAttribute('data-sign')).toBe(sign);
    }
  });
  it('simulated: a strip along the top, and the word in every row', async () => {
    await show('simulated');
    expect(await page.locator('.film-edge').innerText()).toContain('SIMULATED · NO BOARD');
    const rows = await page.locator('.row[data-trial] .state').allInnerTexts();
    expect(rows.length).toBe(9);
    for (const text of rows) expect(text).toContain('simulated');
    await show('settling');
    expect(await count('.film-edge')).toBe(0);
  });
  it('a struck trial is struck through, outlined and slashed, with its reason', async () => {
    await show('settling');
    const row = page.locator('.row[data-trial="6"]');
    expect(await row.locator('s').count()).toBe(5);
    expect(await row.innerText()).toContain('struck: blade slipped');
    expect(await count('.mark.struck[data-trial="6"] .slot')).toBe(1);
    expect(await count('.mark.struck[data-trial="6"] .slash')).toBe(1);
    expect(await count('.mark.good .slot')).toBe(0);
  });
  it('saving stopped: a banner that says so', async () => {
    await show('saving-stopped');
    expect(await page.locator('.notice.alarm').innerText()).toMatch(
      /Saving has stopped\.\s+The disk is full/,
    );
  });
  it('bad lines are counted in words beside the link', async () => {
    await show('settling');
    const faults = { ...status().faults, malformed: 2, checksum: 1 };
    stand.feed.send({ type: 'status', status: status({ faults }) });
    const words = page.locator('.link-words', { hasText: '50 readings a second. 3 bad lines.' });
    await words.waitFor();
  });
  it('a notice is shown until it has been read', async () => {
    await show('settling');
    const notices = [{ code: 'column-ignored', message: 'The column "colour" is not read.' }];
    stand.feed.send({ type: 'status', status: status({ notices }) });
    await page.locator('.notice.note', { hasText: 'colour' }).waitFor();
    await page.getByRole('button', { name: 'Understood' }).click();
    expect(await count('.notice')).toBe(0);
    // Once it is over and has come back, it is news.
    stand.feed.send({ type: 'status', status: status({ notices }) });
    await settleFrames(page);
    expect(await count('.notice')).toBe(0);
    stand.feed.send({ type: 'status', status: status() });
    stand.feed.send({ type: 'status', status: status({ notices }) });
    await page.locator('.notice.note', { hasText: 'colour' }).waitFor();
  });
  it('no trials: says so, and claims nothing', async () => {
    await show('no-trials');
    expect(await page.locator('.sentence').innerText()).toBe('Nothing logged yet.');
    expect(await count('.mark')).toBe(0);
    expect(await count('.row[data-trial]')).toBe(0);
  });
  it('trials are listed with their uncertainty, newest first', async () => {
    await show('logged');
    const powers = await page.locator('.row .power-cell').allInnerTexts();
    expect(powers[0]?.replaceAll('\u202f', ' ')).toBe('243 ± 3 mW');
    expect(powers).toHaveLength(9);
  });
  it('against winds that differ: the bins of a power curve, and the share of the wind, each on its axis', async () => {
    const wind = (value: number) => ({ value, standardUncertainty: 0.02, degreesOfFreedom: 30 });
    const trials = [2.5, 2.5, 3.3, 3.3, 4.2, 4.2].map((speed, i) => {
      return trial(i + 1, 3 * speed ** 3 + (i % 2), { windSpeed_mps: wind(speed) });
    });
    const snapshot = messagesOf('settling')[0] as Snapshot;
    const asked = { ...snapshot, trials, experiment: { ...NO_EXPERIMENT, rotorAndAir: ROTOR_AND_AIR } };
    stand.feed.show(asked);
    await expect.poll(() => count('.row[data-trial]')).toBe(6);
    await page.getByRole('button', { name: 'against wind' }).click();
    // Three rings, each with its scatter and, dashed, what the instruments leave open; two for the key.
    expect(await count('.answer-plot .ring')).toBe(3);
    expect(await count('.answer-plot .interval.common')).toBe(3);
    expect(await page.locator('.wind-signs').textContent()).toContain('scatter of trials');
    await page.getByRole('button', { name: 'share of the wind' }).click();
    expect(await page.locator('.wind-signs').textContent()).toContain('Betz: 59.3');
    const names = await page.locator('.ground text').allTextContents();
    expect(names.some((name) => name.endsWith('mW')) && names.some((name) => name.endsWith('%'))).toBe(true);
    stand.feed.show({ ...asked, experiment: NO_EXPERIMENT });
    await page.getByText('say how large the rotor is').waitFor();
    // Trials of one wind have no share to show: the plot stands as it would by itself.
    await show('settling');
    await expect.poll(() => count('.wind-signs')).toBe(0);
    expect(await page.getByRole('button', { name: 'share of the wind' }).count()).toBe(0);
  });
  it('against wind: the same trials at their wind speeds', async () => {
    await show('settling');
    await page.getByRole('button', { name: 'against wind' }).click();
    expect(await count('.mark')).toBe(8);
    expect(await page.locator('.answer-plot .name').last().textContent()).toContain('m/s');
    await page.getByRole('button', { name: 'Power of each trial' }).click();
    expect(await page.locator('.answer-plot .name.now').textContent()).toBe('9');
  });
});
