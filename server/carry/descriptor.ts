/** The descriptor of the package: Data Package 2.0 (https://datapackage.org), readable as 1.0 too. */
import { CORE_VERSION, numberOf } from '#core/recording.ts';
import { SCHEMA_VERSION } from '../store/schema.ts';
import type { RecordingInfo, SessionInfo } from '../store/store.ts';
import type { WrittenFile } from './package-target.ts';
import { FILE_FORMAT } from './session-file.ts';

/** A file of the package, and what it is. */
export interface Resource extends WrittenFile {
  readonly name: string;
  readonly path: string;
  readonly title: string;
  readonly description?: string;
  readonly format: string;
  readonly mediatype: string;
  /** Table Schema, for a table. */
  readonly schema?: object;
}

export interface PackageFacts {
  readonly program: string;
  readonly session: SessionInfo;
  readonly recordings: readonly RecordingInfo[];
  /** An identifier of the Open Definition, as somebody chose it; null: nobody did. */
  readonly licence: string | null;
  /** What could not be read back and is not in it, one sentence each. */
  readonly leftOut: readonly string[];
}

const MADE_UP = 'SIMULATED. Nothing here was measured: a program made the readings up.';
const PROVENANCE: Readonly<Record<SessionInfo['origin'], string>> = {
  board: 'Measured with a board at a bench-top turbine.',
  simulated: MADE_UP,
  imported: 'From a recorded file: where its readings come from is for whoever made that file to say.',
};

/** First words of every text about the data. */
export function provenanceOf({ origin }: Pick<SessionInfo, 'origin'>): string {
  return PROVENANCE[origin];
}

export function titleOf({ name, origin }: Pick<SessionInfo, 'name' | 'origin'>): string {
  return origin === 'simulated' ? `SIMULATED: ${name}` : name;
}

export function descriptorOf(facts: PackageFacts, resources: readonly Resource[]): object {
  const { session, recordings, licence, leftOut, program } = facts;
  const { id, name, startedAt, origin } = session;
  return {
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name: `stillmark-session-${id.toLowerCase()}`,
    id,
    title: titleOf(session),
    description: `${provenanceOf(session)} A session of Stillmark: trials logged when the readings were steady, the samples they come from, and everything needed to derive them again. Units are SI and stand last in the names; u_… is a standard uncertainty, dof_… its degrees of freedom.`,
    // Of the data, so that the same session gives the same file.
    created: recordings.at(-1)?.startedAt ?? startedAt,
    keywords: ['wind turbine', 'experiment', origin === 'simulated' ? 'simulated' : 'measured'],
    ...(licence !== null && { licenses: [{ name: licence }] }),
    contributors: [{ title: `Stillmark ${program}`, roles: ['generator'] }],
    sources: [{ title: provenanceOf(session) }],
    simulated: origin === 'simulated',
    stillmark: {
      format: FILE_FORMAT,
      dataVersion: SCHEMA_VERSION,
      program,
      coreVersion: CORE_VERSION,
      session: { id, name, startedAt, origin },
      recordings: recordings.map((recording) => ({
        number: numberOf(recording),
        startedAt: recording.startedAt,
        coreVersion: recording.head.coreVersion,
        engineVersion: recording.engineVersion,
      })),
      leftOut,
    },
    resources: resources.map(resourceOf),
  };
}

function resourceOf({ schema, ...resource }: Resource): object {
  if (schema === undefined) return { ...resource, encoding: 'utf-8' };
  // `type` is what version 2 calls a table, `profile` what version 1 does.
  return { ...resource, encoding: 'utf-8', type: 'table', profile: 'tabular-data-resource', schema };
}
