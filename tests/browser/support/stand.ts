/** What the page's suites stand on: a fake feed that serves the page, and a browser. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { needsChromium } from '../../support/needs.ts';
import { launch } from './browser.ts';
import { startFakeFeed, type FakeFeed } from './fake-feed.ts';

export interface Stand {
  /** There from the first test on. */
  readonly feed: FakeFeed;
  readonly browser: Browser;
}

/** A suite with a feed and a browser of its own; left out by name where there is no browser. */
export function describeOnStand(name: string, suite: (stand: Stand) => void): void {
  const chromium = needsChromium();
  chromium.describe(name, () => {
    const stand = {} as { feed: FakeFeed; browser: Browser };
    beforeAll(async () => {
      stand.feed = await startFakeFeed();
      stand.browser = await launch(chromium.path ?? '');
    }, 60_000);
    afterAll(async () => {
      await stand.browser.close();
      await stand.feed.close();
    });
    suite(stand);
  });
}
