/** What a session's file holds, by name, and what its descriptor says to whoever takes it in. */
import { z } from 'zod';

/** The descriptor that makes a folder a Data Package. */
export const DESCRIPTOR = 'datapackage.json';
/** Every row of the session, one a line: all that is read when it is taken in. */
export const ROWS = 'session.jsonl';

/** The format of the file as a whole; the rows have the version of the data folder. */
export const FILE_FORMAT = 1;

/** What Stillmark itself reads of the descriptor. */
export const DescriptorSchema = z.object({
  stillmark: z.object({
    format: z.number().int().positive(),
    dataVersion: z.number().int().positive(),
  }),
});
