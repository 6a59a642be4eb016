/** Rules of WCAG 2.2 A and AA, and best practice, as implemented by axe-core. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export async function expectAccessible(page: Page): Promise<void> {
  if ((await page.evaluate('typeof axe')) === 'undefined') await page.evaluate(AXE);
  // The yellow ground fades in; contrast is that of the end.
  await page.evaluate(
    "Promise.all(document.getAnimations().filter((one) => one instanceof CSSTransition).map((one) => one.finished.catch(() => null)))",
  );
  const found = await page.evaluate<string[]>(`
    axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'] })
      .then(({ violations }) => violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => id + ': ' + target)))
  `);
  expect(found).toEqual([]);
}
