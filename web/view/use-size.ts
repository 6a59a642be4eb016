import { useEffect, useState } from 'preact/hooks';
import type { RefObject } from 'preact';

/** The page's unit, CSS pixels. */
export function rem_px(): number {
  return parseFloat(getComputedStyle(document.documentElement).fontSize);
}

export interface Size {
  readonly width: number;
  readonly height: number;
  /** The page's unit, CSS pixels. */
  readonly rem: number;
}

/** The size of an element, kept up to date. */
export function useSize(ref: RefObject<HTMLElement>): Size {
  const [size, setSize] = useState<Size>({ width: 0, height: 0, rem: 16 });
  useEffect(() => {
    const element = ref.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(() => {
      setSize({ width: element.clientWidth, height: element.clientHeight, rem: rem_px() });
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}
