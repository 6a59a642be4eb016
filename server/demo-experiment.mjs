// `npm run demo:experiment`: sets up what is missing, then plays an experiment on the simulated rig.
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ROOT } from './root.mjs';
import { ensureBuild, ensureDependencies, requireNode } from './setup.mjs';

requireNode();
ensureDependencies();
await ensureBuild();
await import(pathToFileURL(join(ROOT, 'dist', 'demo-experiment.js')).href);
