/** A part of the page that unfolds below the band, and is brought to where it can be seen. */
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

interface Props {
  readonly id: string;
  readonly class: string;
  readonly label: string;
  readonly children: ComponentChildren;
}

export function Unfolded({ id, class: className, label, children }: Props) {
  const section = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    if (section.current !== null) bringIntoSight(section.current);
  }, []);
  return (
    <section class={className} id={id} aria-label={label} ref={section}>
      {children}
    </section>
  );
}

/** Where it was unfolded from a button far below, the page would else seem to have done nothing. */
function bringIntoSight(section: HTMLElement): void {
  const { top, bottom } = section.getBoundingClientRect();
  const covered_px = parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop) || 0;
  if (top < covered_px || bottom > innerHeight) section.scrollIntoView({ block: 'start' });
}
