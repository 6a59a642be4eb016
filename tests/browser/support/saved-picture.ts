/** A picture that a page keeps as a file, and what is in it. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

export async function savedFile(page: Page, name: string | RegExp): Promise<Buffer> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name }).first().click(),
  ]);
  return readFileSync(await download.path());
}

export interface ReadPicture {
  readonly text: string;
  /** How many of them there are. */
  count(selector: string): number;
}

/**
 * Opens an SVG as a document of its own: nothing that it leans on, and light ground.
 * @param selectors what is to be counted
 */
export async function readSvg(page: Page, file: Buffer, selectors: readonly string[] = []): Promise<ReadPicture> {
  const read = await page.evaluate(
    ([text, wanted]) => {
      const { documentElement: root } = new DOMParser().parseFromString(text, 'image/svg+xml');
      const all = [root, ...root.querySelectorAll('*')];
      return {
        kind: root.tagName,
        ground: root.querySelector('rect')?.getAttribute('fill') ?? null,
        leansOn: all.flatMap(({ tagName, attributes }) =>
          [...attributes].filter(({ name, value }) => /^(class|style)$|href/.test(name) || /url\(|var\(/.test(value)).map(({ name }) => `${tagName} ${name}`),
        ),
        loads: root.querySelectorAll('style, script, image, use, foreignObject').length,
        unfilled: root.querySelectorAll('path:not([fill]), line:not([stroke]), text:not([font-family])').length,
        text: root.textContent ?? '',
        counts: wanted.map((selector) => [selector, root.querySelectorAll(selector).length] as const),
      };
    },
    [file.toString(), selectors] as const,
  );
  // #f5f7f5, the page's light paper.
  expect(read).toMatchObject({ kind: 'svg', ground: 'rgb(245, 247, 245)', leansOn: [], loads: 0, unfilled: 0 });
  const counts = new Map(read.counts);
  return { text: read.text, count: (selector) => counts.get(selector) ?? NaN };
}

/** RFC 2083, 3.1 and 4.1.1: signature, then the width in the header chunk. */
export function expectPng(file: Buffer): void {
  expect([...file.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  expect(file.readUInt32BE(16)).toBe(1920);
  expect(file.length).toBeGreaterThan(8000);
}
