import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Of the pages: beside the bundle when built, in dist/ of the checkout in development. */
export function webFolder(): string {
  const here = dirname(fileURLToPath(import.meta.url));
  return basename(here) === 'dist' ? join(here, 'web') : join(here, '..', 'dist', 'web');
}
