import type { ComponentChildren } from 'preact';

interface SectionProps {
  readonly name: string;
  readonly class?: string;
  readonly children: ComponentChildren;
}

/** A part of the report: its name at the left below a rule, what it says beside it. */
export function Section({ name, class: className = '', children }: SectionProps) {
  return (
    <section class={`part-of ${className}`}>
      <h2>{name}</h2>
      <div class="body">{children}</div>
    </section>
  );
}

interface ScrollerProps {
  /** Of the table in it. */
  readonly name: string;
  readonly children: ComponentChildren;
}

/** What is wider than a phone moves by itself; keys can reach it. */
export function Scroller({ name, children }: ScrollerProps) {
  return (
    <div class="scroller" role="group" aria-label={name} tabIndex={0}>
      {children}
    </div>
  );
}

interface LineProps {
  readonly count: number;
}

/** Lines to write on. */
export function Lines({ count }: LineProps) {
  return (
    <div class="lines" aria-hidden="true">
      {Array.from({ length: count }, (_, i) => (
        <span key={i} />
      ))}
    </div>
  );
}
