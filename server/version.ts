import { readFileSync } from 'node:fs';

/** The package's version: put in by the build, read from package.json in development. */
export const VERSION: string =
  process.env['STILLMARK_VERSION'] ??
  (JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')) as { version: string })
    .version;
