/** What the bench page says where the readings show that the rig is wired or placed wrong. */
import type { FindingKind } from '#core/rig-check/finding.ts';
import type { Watched } from '#core/rig-check/seconds.ts';

/** What was seen, why it matters, what to do. */
export interface FindingWords {
  /** @param channel by its name in the language; "" for the whole rig @param value with its unit */
  readonly seen: (channel: string, value: string) => string;
  readonly why: string;
  /** Where it is the wind that is read so, and the reason another one. */
  readonly whyOfWind?: string;
  readonly todo: string;
}

export interface RigWords {
  readonly heading: string;
  /** In a sentence, as its subject. */
  readonly channel: Readonly<Record<Watched, string>>;
  readonly finding: Readonly<Record<FindingKind, FindingWords>>;
  /** The button that says that it is no mistake. */
  readonly meant: string;
}
