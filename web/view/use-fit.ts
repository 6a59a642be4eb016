import { useLayoutEffect, useRef } from 'preact/hooks';
import type { RefObject } from 'preact';

/**
 * Shrinks what is too wide for its place: sets `--fit`, 1 or less, by which the style sheet
 * multiplies its sizes, and `data-tight` where it had to. Measured anew after every drawing, and when the place changes.
 * @param content what it depends on; null: anything
 */
export function useFit<T extends HTMLElement = HTMLDivElement>(
  content: string | null,
): RefObject<T> {
  const host = useRef<T>(null);
  useLayoutEffect(
    () => {
      const element = host.current;
      if (element === null) return undefined;
      const fit = (): void => {
        element.removeAttribute('data-tight');
        element.style.setProperty('--fit', '1');
        const { clientWidth, scrollWidth } = element;
        const share = scrollWidth > clientWidth ? clientWidth / scrollWidth : 1;
        element.style.setProperty('--fit', share.toFixed(3));
        element.toggleAttribute('data-tight', share < 1);
      };
      fit();
      addEventListener('resize', fit);
      return () => removeEventListener('resize', fit);
    },
    content === null ? undefined : [content],
  );
  return host;
}
