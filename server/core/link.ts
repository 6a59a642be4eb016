/**
 * The link between board and laptop: what the operating system says of the port (the source
 * knows that) and what the lines say of the board (the pipeline knows that).
 */
import { z } from 'zod';

/** A serial device, as a person should see it. */
export const BoardSchema = z.object({
  /** Stable identity: vendor, product and serial number where known, else USB location, else path. */
  id: z.string(),
  path: z.string(),
  /** A plain name for a person, for instance "USB board (…)"; never only a path when more is known. */
  name: z.string(),
  vendorId: z.string().nullable(),
  productId: z.string().nullable(),
  serialNumber: z.string().nullable(),
  location: z.string().nullable(),
});
export type Board = z.infer<typeof BoardSchema>;

/** The port's state machine, driven by the source. */
export const PortStateSchema = z.discriminatedUnion('phase', [
  /** Waiting for a board to appear. */
  z.object({ phase: z.literal('searching') }),
  z.object({ phase: z.literal('opening'), board: BoardSchema }),
  z.object({
    phase: z.literal('open'),
    board: BoardSchema,
    /** Line speed; a board that is a USB device itself ignores it. */
    speed_Bd: z.number().optional(),
  }),
  /** Was open and has gone; it is taken up again by itself. */
  z.object({
    phase: z.literal('unplugged'),
    board: BoardSchema,
    /** When there is more to say than that, one or two sentences. */
    message: z.string().optional(),
  }),
  /** The operating system would not open it; tried again by itself. */
  z.object({
    phase: z.literal('refused'),
    board: BoardSchema,
    code: z.enum(['busy', 'denied', 'missing', 'failed']),
    /** What to do, one or two sentences. */
    message: z.string(),
    /** Names in the message, for a page that says it in its own language. */
    about: z.array(z.string()).readonly().optional(),
  }),
  /** No board is in use: readings of meters are keyed in. */
  z.object({ phase: z.literal('meters') }),
  /** Not a port at all. */
  z.object({ phase: z.literal('simulated'), seed: z.number() }),
  z.object({ phase: z.literal('replaying'), file: z.string() }),
  z.object({
    phase: z.literal('ended'),
    /** Why, when it was not asked for. */
    message: z.string().optional(),
  }),
]);
export type PortState = z.infer<typeof PortStateSchema>;

/** What the lines say, judged by the pipeline. */
export const LinkHealthSchema = z.enum([
  /** No link is open. */
  'closed',
  /** Opened less than the grace period ago, nothing readable yet. */
  'starting',
  /** Samples arrive. */
  'reading',
  /** Bytes arrive, but no sample for 2 s: wrong speed, boot messages, or no header. */
  'unreadable',
  /** Lines of numbers arrive, but nothing says which column is what. */
  'unmapped',
  /** Nothing arrives for the longer of 2 s and five sample periods. */
  'silent',
]);
export type LinkHealth = z.infer<typeof LinkHealthSchema>;

/** Where lines come from; part of the recorded input. */
export const LinkSchema = z.object({
  source: z.enum(['serial', 'simulated', 'replay']),
  /** Identity of the board or file, to recognise it when it returns. */
  id: z.string(),
  name: z.string(),
  /**
   * arrival: device time is placed on the recording's clock at its first arrival;
   * stream: the lines' own time is stream time as it stands (files).
   */
  clock: z.enum(['arrival', 'stream']),
  /** False when the first line may be the tail of a line cut off by opening in mid-stream. */
  wholeFromStart: z.boolean(),
});
export type Link = z.infer<typeof LinkSchema>;
