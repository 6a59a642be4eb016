import { useLayoutEffect, useRef } from 'preact/hooks';
import type { RefObject } from 'preact';

/**
 * Shrinks what is too wide for its place: sets `--fit`, 1 or less, by which the style sheet
 * multiplies its sizes, and `data-tight` where it had to. Measured anew whenever what stands there
 * changes, and when the page's size does.
 */
export function useFit<T extends HTMLElement = HTMLDivElement>(): RefObject<T> {
  const host = useRef<T>(null);
  useLayoutEffect(() => {
    const element = host.current;
    if (element === null) return undefined;
    const fit = (): void => fitToPlace(element);
    const changes = new MutationObserver(fit);
    changes.observe(element, {
      subtree: true,
      childList: true,
      characterData: true,
      attributeFilter: ['data-text'],
    });
    addEventListener('resize', fit);
    fit();
    return () => {
      changes.disconnect();
      removeEventListener('resize', fit);
    };
  }, []);
  return host;
}

function fitToPlace(element: HTMLElement): void {
  element.removeAttribute('data-tight');
  element.style.setProperty('--fit', '1');
  const { clientWidth, scrollWidth } = element;
  const share = scrollWidth > clientWidth ? clientWidth / scrollWidth : 1;
  element.style.setProperty('--fit', share.toFixed(3));
  element.toggleAttribute('data-tight', share < 1);
}
