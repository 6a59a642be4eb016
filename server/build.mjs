// Bundles the server (few files, so that it starts fast) and the page (nothing is loaded from outside).
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build as bundle } from 'esbuild';
import { ROOT } from './root.mjs';

const DIST = join(ROOT, 'dist');

/** The validator's messages in fifty languages would be half of a page; nothing shows them. */
const oneLocale = {
  name: 'one-locale',
  setup(build) {
    build.onLoad({ filter: /zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({
      contents: "export { default as en } from './en.js';",
    }));
  },
};

/** Writes dist/stillmark.js, its threads' entries and dist/web/. */
export async function build() {
  mkdirSync(join(DIST, 'web'), { recursive: true });
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  for (const name of readdirSync(DIST)) {
    if (/^part-\w+\.js/.test(name)) rmSync(join(DIST, name));
  }
  await bundle({
    entryPoints: {
      stillmark: join(ROOT, 'server/main.ts'),
      'store-worker': join(ROOT, 'server/store/worker.ts'),
      'carry-worker': join(ROOT, 'server/carry/worker.ts'),
      'demo-experiment': join(ROOT, 'server/demo-experiment.ts'),
    },
    outdir: DIST,
    bundle: true,
    platform: 'node',
    format: 'esm',
    splitting: true,
    chunkNames: 'part-[hash]',
    target: 'node20',
    plugins: [oneLocale],
    // Native parts stay where npm put them; so does what they load by path.
    external: ['serialport', '@serialport/*', '@photostructure/sqlite'],
    define: { 'process.env.STILLMARK_VERSION': JSON.stringify(version) },
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module';\nconst require = __createRequire(import.meta.url);",
    },
    sourcemap: true,
    logLevel: 'warning',
  });
  await bundle({
    entryPoints: [join(ROOT, 'web/bench.tsx'), join(ROOT, 'web/wiring.tsx'), join(ROOT, 'web/room.tsx'), join(ROOT, 'web/follow.tsx'), join(ROOT, 'web/report.tsx'), join(ROOT, 'web/why.tsx'), join(ROOT, 'web/why-worker.ts')],
    outdir: join(DIST, 'web'),
    bundle: true,
    format: 'esm',
    target: 'es2022',
    minify: true,
    jsx: 'automatic',
    jsxImportSource: 'preact',
    plugins: [oneLocale],
    logLevel: 'warning',
  });
  for (const name of readdirSync(join(ROOT, 'web'))) {
    if (/\.(html|svg|png|ico)$/.test(name)) cpSync(join(ROOT, 'web', name), join(DIST, 'web', name));
  }
  if (!existsSync(join(DIST, 'web', 'index.html'))) throw new Error('web/index.html is missing');
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) await build();
