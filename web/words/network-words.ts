/** What is said of the room's network, at the bench and on the phones. */
import type { Door } from '#core/network.ts';

/** Why a strike is made, as a rule: for a finger. */
export type StrikeReason = 'bumped' | 'slipped' | 'handInWind';

export interface NetworkWords {
  readonly heading: string;
  /** In the line of the page's folds, where there is little room. */
  readonly fold: string;
  readonly isOpen: string;
  readonly operates: (names: string) => string;
  readonly lead: string;
  readonly noAddress: string;
  readonly open: string;
  readonly close: string;
  /** Of one address, for those who hear the page. */
  readonly openAt: (address: string) => string;
  readonly closeAt: (address: string) => string;
  readonly devices: (count: number) => string;
  readonly lost: string;
  readonly kind: Readonly<Record<Door['kind'], string>>;
  readonly phones: string;
  readonly projector: string;
  readonly help: readonly string[];
  readonly pass: PassWords;
  readonly phone: PhoneWords;
  /** Refusals in the page's language, by their code. */
  readonly refused: Readonly<Record<RefusalCode, string>>;
}

export const REFUSAL_CODES = [
  'command-stale',
  'pass-ended',
  'pass-unknown',
  'bench-only',
] as const;
export type RefusalCode = (typeof REFUSAL_CODES)[number];

export interface PassWords {
  readonly heading: string;
  readonly lead: string;
  readonly name: string;
  readonly usual: (count: number) => string;
  readonly make: string;
  readonly scan: string;
  readonly orType: (address: string) => string;
  readonly caution: string;
  readonly offered: (minutes: number) => string;
  readonly held: (address: string) => string;
  readonly takeBack: (name: string) => string;
}

export interface PhoneWords {
  readonly ask: string;
  readonly askSmall: string;
  readonly yes: string;
  readonly no: string;
  readonly haveCode: string;
  readonly code: string;
  readonly takeUp: string;
  readonly youAre: (name: string) => string;
  readonly giveBack: string;
  readonly done: string;
  readonly controls: string;
  readonly strike: (trial: number) => string;
  readonly restore: (trial: number) => string;
  readonly again: (label: string) => string;
  readonly skip: (label: string) => string;
  readonly whyStruck: (trial: number) => string;
  readonly reason: Readonly<Record<StrikeReason, string>>;
  readonly otherReason: string;
  readonly cancel: string;
}
