/** A session's file as a source: it is played, from a data folder of its own that goes with it. */
import type { SourceChoice } from './source-choice.ts';
import { temporaryFolder } from './carry/temporary.ts';
import { unpackSession } from './carry/unpack.ts';

export interface StagedSource {
  readonly source: SourceChoice;
  remove(): void;
}

/**
 * Any other source stays what it is.
 * @throws FileError for a file that holds no session
 */
export function stageSource(source: SourceChoice, speed: number): StagedSource {
  const isFile = source.kind === 'replay' && /\.zip$/i.test(source.file);
  if (!isFile) return { source, remove: () => undefined };
  const stage = temporaryFolder();
  try {
    const { id: sessionId } = unpackSession(source.file, stage.path);
    return {
      source: { kind: 'session', folder: stage.path, sessionId, speed },
      remove: () => stage.remove(),
    };
  } catch (error) {
    stage.remove();
    throw error;
  }
}
