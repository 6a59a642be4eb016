import { ensureBuild } from '../../server/setup.mjs';

/** Before suites that run the built program: builds it when a source file has changed. */
export async function setup(): Promise<void> {
  await ensureBuild();
}
