/** The plan in a session's file, or in a plan.json, for a server that begins with it. */
import { readFileSync, statSync } from 'node:fs';
import {
  LARGEST_PLAN_bytes,
  PLAN_FILE,
  PLAN_FILE_FAULTS,
  readPlanFile,
} from '#core/experiment/plan/plan-file.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import { FileError } from './errors.ts';
import { openZip } from './zip-in.ts';

/** @throws FileError, with a sentence that says what to do */
export function planOfFile(path: string): Plan {
  const read = readPlanFile(/\.zip$/i.test(path) ? textInZip(path) : textOf(path));
  if ('plan' in read) return read.plan;
  throw new FileError('file-without-plan', `${path}: ${PLAN_FILE_FAULTS[read.fault]}`);
}

function textInZip(path: string): string | null {
  const zip = openZip(path);
  try {
    if (!zip.has(PLAN_FILE)) return null;
    return Buffer.concat([...zip.read(PLAN_FILE, LARGEST_PLAN_bytes)]).toString('utf8');
  } finally {
    zip.close();
  }
}

function textOf(path: string): string | null {
  try {
    return statSync(path).size > LARGEST_PLAN_bytes ? null : readFileSync(path, 'utf8');
  } catch (error) {
    const isMissing = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    const code = isMissing ? 'file-missing' : 'file-unusable';
    const what = isMissing ? 'There is no such file. Check its name and folder.' : 'It can’t be read.';
    throw new FileError(code, `${path}: ${what}`, { cause: error });
  }
}
