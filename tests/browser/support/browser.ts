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

/** Pages given back: a new one costs a process, seconds where two cores do everything. */
const idle = new WeakMap<Browser, Page[]>();
const problemsOf = new WeakMap<Page, string[]>();
const isTouch = new WeakMap<Page, boolean>();

/** A page on a fresh device: nothing is stored there. `problems`: errors and broken policies. */
export async function openPage(
  browser: Browser,
  url: string,
  { sheet, scheme, reducedMotion = 'no-preference', before }: OpenOptions,
): Promise<{ page: Page; problems: string[] }> {
  const hasTouch = sheet.width < 500;
  const page = takeIdle(browser, hasTouch) ?? (await newPage(browser, hasTouch));
  const problems: string[] = [];
  problemsOf.set(page, problems);
  await page.setViewportSize({ width: sheet.width, height: sheet.height });
  await page.emulateMedia({ colorScheme: scheme, reducedMotion });
  await before?.(page);
  await page.goto(url);
  return { page, problems };
}

/** Gives a page back, for others to open. Not one that was prepared before it was opened. */
export async function closePage(page: Page): Promise<void> {
  await page.evaluate('localStorage.clear(), sessionStorage.clear()');
  await page.goto('about:blank');
  const browser = page.context().browser();
  if (browser !== null) idle.set(browser, [...(idle.get(browser) ?? []), page]);
}

function takeIdle(browser: Browser, hasTouch: boolean): Page | undefined {
  const pages = idle.get(browser) ?? [];
  const found = pages.find((page) => isTouch.get(page) === hasTouch);
  idle.set(browser, pages.filter((page) => page !== found));
  return found;
}

async function newPage(browser: Browser, hasTouch: boolean): Promise<Page> {
  const context = await browser.newContext({ timezoneId: 'Europe/Berlin', hasTouch });
  const page = await context.newPage();
  isTouch.set(page, hasTouch);
  const tell = (problem: string): void => void problemsOf.get(page)?.push(problem);
  page.on('pageerror', (error) => tell(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') tell(message.text());
  });
  return page;
}
