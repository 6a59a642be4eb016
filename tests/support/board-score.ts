/** What the played board does, part by part. */
import { z } from 'zod';

const PartSchema = z.discriminatedUnion('do', [
  /** The rotor approaches a voltage with a lag of 0.5 s and stays there. */
  z.object({ do: z.literal('level'), voltage_V: z.number(), length_s: z.number() }),
  /** Bytes as they are, for instance boot messages or half a line. */
  z.object({ do: z.literal('bytes'), text: z.string() }),
  /** Samples are numbered but not sent. */
  z.object({ do: z.literal('lose'), count: z.number().int() }),
  z.object({ do: z.literal('silence'), length_s: z.number() }),
]);

export const ScoreSchema = z.object({
  grammar: z.enum(['plain', 'plain without header', 'stillmark']),
  rate_Hz: z.number().positive(),
  seed: z.number(),
  parts: z.array(PartSchema),
});
export type Score = z.input<typeof ScoreSchema>;
export type PlayedScore = z.output<typeof ScoreSchema>;

export const LOAD_OHM = 20;
export const WIND_MPS = 4;
