/** What the pipeline says, in order, for the store and the live feed. */
import type { FaultKind, Request } from '#protocol/frame.ts';
import type { Trial } from './experiment/trial.ts';
import type { LinkHealth } from './link.ts';
import type { Declared, EndReason, Plateau, Verdict } from './signal/plateau.ts';
import type { Sample } from './signal/sample.ts';

/** A closed plateau, trial or not. */
export interface ClosedPlateau extends Plateau {
  readonly endReason: EndReason;
  /** The trial that it became, null when it was brief (shorter than the recording length). */
  readonly trialId: number | null;
}

/** Something a person should read once; `code` is documented in docs/errors.md. */
export interface Notice {
  readonly code: string;
  readonly message: string;
  /** Names and numbers of the message, for a page that says it in its own language. */
  readonly about?: readonly string[];
  /** What was said before does not hold any more: it is to be shown no longer. */
  readonly isOver?: true;
}

export type Event =
  | { readonly kind: 'sample'; readonly sample: Sample }
  | { readonly kind: 'fault'; readonly fault: FaultKind; readonly count: number }
  | { readonly kind: 'health'; readonly health: LinkHealth }
  | { readonly kind: 'judged'; readonly verdict: Verdict }
  | ({ readonly kind: 'declared' } & Declared)
  | { readonly kind: 'closed'; readonly plateau: ClosedPlateau }
  /** A new revision of a trial: to be committed before anyone is told. */
  | { readonly kind: 'trial'; readonly trial: Trial }
  | { readonly kind: 'notice'; readonly notice: Notice }
  /** To be sent to the board, where there is one that listens. */
  | { readonly kind: 'ask'; readonly request: Request }
  /** What is known of the board, or asked of it, is not what it was. */
  | { readonly kind: 'board' }
  /** The plan, where in it we are, or what is to be done now is not what it was. */
  | { readonly kind: 'experiment' };
