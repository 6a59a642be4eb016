/** Chromium without a screen, with a fresh profile, and nothing that calls home. */
import { chromium, type Browser, type Page } from 'playwright-core';

const QUIET = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export async function launch(executablePath: string): Promise<Browser> {
  return chromium.launch({ executablePath, args: QUIET, headless: true });
}

export interface Sheet {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

/** A projector, the smaller laptop and a phone. */
export const SHEETS: readonly Sheet[] = [
  { name: '1920', width: 1920, height: 1080 },
  { name: '1280', width: 1280, height: 720 },
  { name: '390', width: 390, height: 844 },
];

export interface OpenOptions {
  readonly sheet: Sheet;
  readonly scheme: 'light' | 'dark';
  readonly reducedMotion?: 'reduce' | 'no-preference';
  /** Done to the page before it is opened. */
  readonly before?: (page: Page) => Promise<void>;
}

/** A page in a context of its own; `problems` gathers errors and broken policies. */
export async function openPage(
  browser: Browser,
  url: string,
  { sheet, scheme, reducedMotion = 'no-preference', before }: OpenOptions,
): Promise<{ page: Page; problems: string[] }> {
  const context = await browser.newContext({
    viewport: { width: sheet.width, height: sheet.height },
    colorScheme: scheme,
    reducedMotion,
    timezoneId: 'Europe/Berlin',
    hasTouch: sheet.width < 500,
  });
  const page = await context.newPage();
  const problems: string[] = [];
  page.on('pageerror', (error) => problems.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') problems.push(message.text());
  });
  await before?.(page);
  await page.goto(url);
  return { page, problems };
}
