// `npm start`: sets up what is missing, then runs `stillmark serve`.
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ROOT } from './root.mjs';
import { ensureBuild, ensureDependencies, requireNode } from './setup.mjs';

requireNode();
ensureDependencies();
await ensureBuild();

// In this same process, so that Ctrl-C reaches the server itself on every platform.
process.argv.splice(2, 0, 'serve');
await import(pathToFileURL(join(ROOT, 'dist', 'stillmark.js')).href);
