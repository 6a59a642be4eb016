/** A session's file, looked at and put into a data folder of its own, before it is used. */
import { StoreError } from '../store/errors.ts';
import { fromLine, type SessionRow } from '../store/session-rows.ts';
import { stageSession } from '../store/stage.ts';
import type { SessionInfo } from '../store/store.ts';
import { FileError } from './errors.ts';
import { DESCRIPTOR, DescriptorSchema, FILE_FORMAT, ROWS } from './session-file.ts';
import { openZip, type ZipIn } from './zip-in.ts';

/** A descriptor of a whole day is some 100 KB. */
const LARGEST_DESCRIPTOR_bytes = 8 * 2 ** 20;
/** About 24 h at 1 kHz. */
const LARGEST_SESSION_bytes = 2 ** 30;
/** A row of recorded input unpacks to at most 4 MB. */
const LONGEST_LINE_bytes = 8 * 2 ** 20;

/**
 * @param stageFolder empty, or not there yet; of no use when this fails
 * @throws FileError, with a sentence that says what to do
 */
export function unpackSession(path: string, stageFolder: string): SessionInfo {
  const zip = openZip(path);
  try {
    return stageSession(stageFolder, dataVersionOf(zip), rowsOf(zip));
  } catch (error) {
    throw explained(error);
  } finally {
    zip.close();
  }
}

function dataVersionOf(zip: ZipIn): number {
  const parsed = DescriptorSchema.safeParse(parseJson(wholeText(zip)));
  if (!parsed.success) {
    throw new FileError('file-not-session', 'It is a Data Package, but none of a session. Choose a file that Stillmark has saved.');
  }
  const { format, dataVersion } = parsed.data.stillmark;
  if (format > FILE_FORMAT) {
    throw new FileError('file-too-new', 'A newer Stillmark saved this file. Update Stillmark here, then take it in again.');
  }
  return dataVersion;
}

function wholeText(zip: ZipIn): string {
  const bytes = Buffer.concat([...zip.read(DESCRIPTOR, LARGEST_DESCRIPTOR_bytes)]);
  return bytes.toString('utf8');
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function* rowsOf(zip: ZipIn): Generator<SessionRow> {
  let rest: Uint8Array[] = [];
  let rest_bytes = 0;
  for (const piece of zip.read(ROWS, LARGEST_SESSION_bytes)) {
    let from = 0;
    for (let end = piece.indexOf(LF); end !== -1; end = piece.indexOf(LF, from)) {
      const line = Buffer.concat([...rest, piece.subarray(from, end)]);
      [rest, rest_bytes] = [[], 0];
      yield fromLine(line.toString('utf8'));
      from = end + 1;
    }
    rest.push(piece.subarray(from));
    rest_bytes += piece.length - from;
    if (rest_bytes > LONGEST_LINE_bytes) {
      throw new FileError('file-too-large', 'It holds a row that is longer than any Stillmark writes. It is not taken in.');
    }
  }
  if (rest_bytes > 0) throw new FileError('file-damaged', 'The file is damaged: its last row has no end. Copy it anew from where it was saved.');
}

const LF = 10;

/** What the store finds wrong with rows, as something wrong with the file. */
function explained(error: unknown): unknown {
  if (!(error instanceof StoreError)) return error;
  switch (error.code) {
    case 'data-damaged':
      return new FileError('file-damaged', `${error.message} The file was altered or cut off: copy it anew from where it was saved.`, { cause: error });
    case 'data-too-new':
      return new FileError('file-too-new', error.message, { cause: error });
    default:
      return error;
  }
}
