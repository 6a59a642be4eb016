// Set-up that needs nothing but Node: dependencies and the build, each only when out of date.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, lstatSync, mkdirSync, readFileSync, readdirSync, realpathSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { ROOT } from './root.mjs';

const BUILD_STAMP = join(ROOT, 'dist', '.stillmark-built');

/** The oldest Node that works: earlier ones lack zlib.crc32, and could hang on closing a port. */
const OLDEST_NODE = [20, 15];

/** Stops with a sentence when this Node is too old to run the rest. */
export function requireNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return;
  const wanted = OLDEST_NODE.join('.');
  console.error(`Stillmark needs Node ${wanted} or later; this is ${process.version}. Install a newer one and try again.`);
  process.exit(2);
}

/** Runs `npm ci` when dependencies are missing, half installed or older than the lockfile. */
export function ensureDependencies() {
  // npm writes this file last, so it stands only after a whole installation.
  const installed = join(ROOT, 'node_modules', '.package-lock.json');
  const lockfile = join(ROOT, 'package-lock.json');
  if (existsSync(installed) && statSync(installed).mtimeMs >= statSync(lockfile).mtimeMs) return;
  const obstacle = linkObstacle(join(ROOT, 'node_modules'));
  if (obstacle !== null) {
    console.error(obstacle);
    process.exit(2);
  }
  console.log('Setting up: installing dependencies (only needed once) …');
  npm(['ci', '--no-audit', '--no-fund']);
}

/**
 * Why nothing may be installed into this folder: it is a link, and `npm ci` begins by emptying the
 * folder behind it, which somebody else may be using. Null when it is a folder of its own, or none.
 */
export function linkObstacle(modules) {
  const entry = lstatSync(modules, { throwIfNoEntry: false });
  if (!entry?.isSymbolicLink()) return null;
  return [
    `Nothing was installed: ${modules} is a link${targetOf(modules)}, and installing would empty the folder behind it.`,
    'Remove the link (the link alone, not that folder) and run the same command again: then the',
    'dependencies get a folder of their own. Or bring them up to date where they are installed.',
  ].join('\n');
}

function targetOf(link) {
  try {
    return ` to ${realpathSync(link)}`;
  } catch {
    return ' to nothing';
  }
}

/** Builds the server and the page into dist/ when a source file has changed. */
export async function ensureBuild() {
  const wanted = fingerprint(sourceFiles(), [process.version]);
  if (readStamp(BUILD_STAMP) === wanted) return;
  console.log('Setting up: building server and page …');
  const { build } = await import('./build.mjs');
  await build();
  mkdirSync(dirname(BUILD_STAMP), { recursive: true });
  writeFileSync(BUILD_STAMP, wanted);
}

function npm(args) {
  // npm tells its own path when it runs a script: the same npm then serves every platform.
  const cli = process.env.npm_execpath;
  const result = cli?.endsWith('.js')
    ? spawnSync(process.execPath, [cli, ...args], { cwd: ROOT, stdio: 'inherit' })
    : spawnSync('npm', args, { cwd: ROOT, stdio: 'inherit', shell: process.platform === 'win32' });
  if (result.status === 0) return;
  console.error('Installing the dependencies failed (see above). Check the network and run the same command again.');
  process.exit(1);
}

function sourceFiles() {
  const files = [join(ROOT, 'package.json'), join(ROOT, 'package-lock.json')];
  for (const folder of ['server', 'web', 'firmware-protocol']) {
    for (const entry of readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })) {
      if (entry.isFile()) files.push(join(entry.parentPath ?? entry.path, entry.name));
    }
  }
  return files.sort();
}

/** Size and time of change of each file: cheap, and enough to notice an edit. */
function fingerprint(files, extra) {
  const hash = createHash('sha256');
  for (const file of files) {
    const { size, mtimeMs } = statSync(file);
    hash.update(`${file}\0${size}\0${mtimeMs}\n`);
  }
  return hash.update(extra.join('\0')).digest('hex');
}

function readStamp(file) {
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
}
