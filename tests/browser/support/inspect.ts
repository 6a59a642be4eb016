/** What a page shows, read from the page itself. */
import type { Page } from 'playwright-core';

export interface TextBox {
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Lets what was sent be drawn: two frames. */
export async function settleFrames(page: Page): Promise<void> {
  await page.evaluate(
    () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
  );
}

/**
 * Boxes of all text that can be seen, and of the figures, as clipped by what scrolls; in CSS
 * pixels of the document.
 */
export async function visibleTexts(page: Page): Promise<TextBox[]> {
  return page.evaluate(() => {
    const boxes: { text: string; left: number; top: number; right: number; bottom: number }[] = [];
    const clipOf = (element: Element): DOMRect | null =>
      element.closest('.state, .set, .scroller, .rail-scroll, .link-words, h1, .film-edge, .small')?.getBoundingClientRect() ?? null;
    const headsOf = (element: Element): DOMRect | null =>
      element.closest('.row:not(.heads)') === null
        ? null
        : (document.querySelector('.row.heads')?.getBoundingClientRect() ?? null);
    // What is scrolled under the band that stays is covered by it.
    const stays = document.querySelector('.stays');
    const isStuck = stays !== null && scrollY > 0 && stays.getBoundingClientRect().top <= 0;
    const bandBottom = (element: Element): number => {
      const isBelow = stays !== null && !stays.contains(element) &&
        (stays.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
      return isStuck && isBelow && getComputedStyle(stays).position === 'sticky'
        ? stays.getBoundingClientRect().bottom
        : -Infinity;
    };
    const add = (text: string, element: Element, rect: DOMRect): void => {
      const clip = clipOf(element);
      const heads = headsOf(element);
      // Rows scrolled under the heads of the list are covered by them.
      const coverBottom = heads !== null && heads.height > 2 ? heads.bottom : -Infinity;
      const left = Math.max(rect.left, clip?.left ?? -Infinity);
      const right = Math.min(rect.right, clip?.right ?? Infinity);
      const top = Math.max(rect.top, clip?.top ?? -Infinity, coverBottom, bandBottom(element));
      const bottom = Math.min(rect.bottom, clip?.bottom ?? Infinity);
      if (right - left < 1 || bottom - top < 1) return;
      boxes.push({ text, left, top: top + scrollY, right, bottom: bottom + scrollY });
    };
    const isHidden = (element: Element): boolean =>
      element.closest('.sr, .film-edge, noscript, script') !== null ||
      // On a phone the heads of the list are for screen readers alone.
      (element.closest('.row.heads')?.clientHeight ?? 99) < 12 ||
      !element.checkVisibility();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const parent = node.parentElement;
      const text = node.textContent?.trim() ?? '';
      if (parent === null || text === '' || isHidden(parent)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const rect of range.getClientRects()) add(text, parent, rect);
    }
    for (const figure of document.querySelectorAll('svg.figure')) {
      add(figure.getAttribute('data-text') ?? '', figure, figure.getBoundingClientRect());
    }
    return boxes;
  });
}

/** Pairs of texts that lie over one another by more than a hair. */
export function overlaps(boxes: readonly TextBox[]): string[] {
  const found: string[] = [];
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) {
      const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      // Line boxes of neighbouring lines touch; letters do not.
      const slack = 0.3 * Math.min(a.bottom - a.top, b.bottom - b.top);
      // Cut short by an ellipsis, a text has two boxes of its own.
      if (width > 1 && height > slack && a.text !== b.text)
        found.push(`"${a.text}" over "${b.text}"`);
    }
  });
  return found;
}

/** For each canvas the number of pixels that anything was drawn on. */
export async function drawnPixels(page: Page): Promise<number[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('canvas')].map((canvas) => {
      // Read from a copy, so that the page's own canvas stays as it is.
      const copy = Object.assign(document.createElement('canvas'), {
        width: canvas.width,
        height: canvas.height,
      });
      const context = copy.getContext('2d', { willReadFrequently: true });
      if (context === null) return 0;
      context.drawImage(canvas, 0, 0);
      const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
      let drawn = 0;
      for (let i = 3; i < data.length; i += 4) if ((data[i] ?? 0) > 0) drawn += 1;
      return drawn;
    }),
  );
}

/** The large figure: its text, and which characters are heavy. */
export async function powerFigure(page: Page): Promise<{ text: string; heavy: string }> {
  const figure = page.locator('.power .figure');
  const [text, heavy] = await Promise.all([
    figure.getAttribute('data-text'),
    figure.getAttribute('data-heavy'),
  ]);
  return { text: text ?? '', heavy: heavy ?? '' };
}

/** Words of the band, with plain spaces. */
export async function bandWords(
  page: Page,
): Promise<{ instruction: string; moving: string; detail: string }> {
  const read = async (name: string): Promise<string> =>
    (await page.locator(`.words .${name}`).innerText()).replaceAll('\u202f', ' ').trim();
  return {
    instruction: await read('instruction'),
    moving: await read('moving'),
    detail: await read('detail'),
  };
}

/** The smallest type that can be seen, CSS pixels, and what is set in it. */
export async function leastType(page: Page): Promise<{ size_px: number; text: string }> {
  return page.evaluate(() => {
    const least = { size_px: Infinity, text: '' };
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const parent = node.parentElement;
      const text = (node.textContent ?? '').trim();
      if (parent === null || text === '') continue;
      if (parent.closest('.sr, noscript, script') !== null || !parent.checkVisibility()) continue;
      const size_px = parseFloat(getComputedStyle(parent).fontSize);
      if (size_px < least.size_px) Object.assign(least, { size_px, text });
    }
    return least;
  });
}
