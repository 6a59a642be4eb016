/** What the readings say of how the rig is wired and placed: something to look at, never a bar. */
import { z } from 'zod';
import { CHANNELS } from '../signal/sample.ts';

export const FINDING_KINDS = [
  /** Wind off, nothing moves, and a channel reads something. */
  'zero-off',
  /** Voltage and current have opposite signs: one pair of leads is swapped. */
  'signs-differ',
  /** Voltage and no current: the lamp's circuit is open, or the voltmeter stands in its line. */
  'no-current',
  /** Current and no voltage: a short, or the ammeter stands across the lamp. */
  'no-voltage',
  /** One channel gives the same number while the other moves. */
  'stuck',
  /** The same at the top of its range. */
  'clipped',
  /** The rotor turns, and the anemometer reads nothing. */
  'wind-unread',
  /** The wind blows, and at several settings nothing turned. */
  'wind-past-rotor',
  /** From one trial on the wind is another one: the fan was moved, or something stands before it. */
  'wind-changed',
  /** It started long after the wind did, in a wind that had not changed. */
  'needs-flick',
  /** More than any rig of this kind gives: a unit is wrong. */
  'too-much',
  /** More than the wind holds. */
  'beyond-wind',
  /** A ripple of the mains in the readings. */
  'mains-hum',
] as const;
export type FindingKind = (typeof FINDING_KINDS)[number];

export const FindingSchema = z
  .object({
    kind: z.enum(FINDING_KINDS),
    /** The channel that it is about; null: the whole rig. */
    channel: z.enum(CHANNELS).nullable(),
    /**
     * What was read, SI; of hum its frequency, Hz; of a flick how long it waited, s; of a changed
     * wind by how much, as a share.
     */
    value: z.number().nullable(),
    /** The trial that shows it; null: the readings do. */
    trialId: z.number().int().nullable(),
  })
  .readonly();
export type Finding = z.infer<typeof FindingSchema>;

/** What tells findings apart: one is accepted for its channel, whatever it reads. */
export function nameOfFinding({ kind, channel }: Pick<Finding, 'kind' | 'channel'>): string {
  return channel === null ? kind : `${kind} ${channel}`;
}
