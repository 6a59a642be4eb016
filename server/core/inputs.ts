/**
 * The recorded inputs of a session. Trials are a pure function of these, in order.
 * Times (`at_s`) are arrival times: seconds since the recording began, on a monotonic clock,
 * rounded by the source to whole microseconds so that storing them loses nothing.
 */
import { z } from 'zod';
import { MOST_CHANNELS } from '#protocol/frame.ts';
import { ConfigurationSchema } from './configuration.ts';
import { AddressSchema } from './experiment/address.ts';
import { CommandSchema } from './experiment/command.ts';
import { CORRECTABLE } from './experiment/correction.ts';
import { LinkSchema } from './link.ts';

const target = AddressSchema.shape;

/** What an operator does about a trial. */
export const ActionSchema = z.discriminatedUnion('kind', [
  /** Set it aside; it stays in the record. */
  z.object({ kind: z.literal('strike'), ...target, reason: z.string().max(200) }),
  /** Take a strike back. */
  z.object({ kind: z.literal('restore'), ...target }),
  z.object({ kind: z.literal('note'), ...target, text: z.string().max(500) }),
  /** Give it to another run of the plan, or (null) to none. */
  z.object({ kind: z.literal('move'), ...target, runId: z.string().max(200).nullable() }),
]);
export type Action = z.infer<typeof ActionSchema>;

/** Of a channel that a board announced. */
export const ChannelNumberSchema = z.number().int().min(1).max(MOST_CHANNELS);

export const InputSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('opened'), at_s: z.number(), link: LinkSchema }),
  /** One line without its line end, as it passed the line guard. */
  z.object({ kind: z.literal('line'), at_s: z.number(), text: z.string() }),
  /** Lines that the guard dropped since the input before. */
  z.object({
    kind: z.literal('dropped'),
    at_s: z.number(),
    fault: z.enum(['tooLong', 'malformed']),
    count: z.number().int().positive(),
  }),
  z.object({
    kind: z.literal('closed'),
    at_s: z.number(),
    /** ended: the source came to its end (a file, or the server was stopped). */
    reason: z.enum(['unplugged', 'replaced', 'ended']),
  }),
  /** Time passes though nothing arrives. */
  z.object({ kind: z.literal('tick'), at_s: z.number() }),
  /** The computer slept, and the recording's clock stood still meanwhile. */
  z.object({ kind: z.literal('slept'), at_s: z.number(), lasted_s: z.number().positive() }),
  z.object({ kind: z.literal('action'), at_s: z.number(), action: ActionSchema }),
  /** What the operator says about the experiment. */
  z.object({ kind: z.literal('command'), at_s: z.number(), command: CommandSchema }),
  /** The operator has the board take what a channel reads now as its zero. */
  z.object({ kind: z.literal('zero'), at_s: z.number(), channel: ChannelNumberSchema }),
  z.object({
    kind: z.literal('configured'),
    at_s: z.number(),
    configuration: ConfigurationSchema,
    /** What the operator has corrected from now on, where it was that: it can be taken back. */
    corrected: z.enum(CORRECTABLE).optional(),
  }),
]);
export type Input = z.infer<typeof InputSchema>;
