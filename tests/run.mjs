// `npm test`: sets up what the suites need, then runs all of them. A suite that can't run here is
// named with the reason; in CI that is a failure.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../server/root.mjs';
import { ensureBuild, ensureDependencies, requireNode } from '../server/setup.mjs';

/** What the suites need beyond npm packages: the command looked for, Debian's package, the suites. */
const SYSTEM_NEEDS = [
  { command: 'chromium', packages: ['chromium', 'fonts-dejavu-core', 'fonts-dejavu-extra'], suites: 'browser' },
  { command: 'socat', packages: ['socat'], suites: 'pty' },
];

requireNode();
ensureDependencies();
installSystemPackages();
await ensureBuild();
run('Types', process.execPath, [join(ROOT, 'node_modules/typescript/bin/tsc'), '-p', 'server/core/tsconfig.json']);
run('Types', process.execPath, [join(ROOT, 'node_modules/typescript/bin/tsc'), '-p', 'tsconfig.json']);
run('Lint', process.execPath, [join(ROOT, 'node_modules/eslint/bin/eslint.js'), '--max-warnings', '0', '.']);
run('Tests', process.execPath, [join(ROOT, 'node_modules/vitest/vitest.mjs'), 'run', ...process.argv.slice(2)]);

function run(what, command, args) {
  const { status } = spawnSync(command, args, { cwd: ROOT, stdio: 'inherit' });
  if (status === 0) return;
  console.error(`${what}: failed (see above).`);
  process.exit(status ?? 1);
}

function installSystemPackages() {
  const missing = SYSTEM_NEEDS.filter(({ command }) => !onPath(command));
  if (missing.length === 0) return;
  if (!isDebian() || process.getuid?.() !== 0) {
    for (const { command, packages, suites } of missing) {
      console.log(`Left out: the ${suites} tests, because ${command} is not installed here (Debian: apt-get install ${packages.join(' ')}).`);
    }
    return;
  }
  const packages = missing.flatMap((need) => need.packages);
  console.log(`Setting up: installing Debian packages for the tests: ${packages.join(', ')} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env });
  const args = ['install', '-y', '-qq', '--no-install-recommends', ...packages];
  const { status } = spawnSync('apt-get', args, { stdio: ['ignore', 'ignore', 'inherit'], env });
  if (status !== 0) console.error('Installing them failed; the tests that need them will say so.');
}

function onPath(command) {
  const folders = (process.env.PATH ?? '').split(process.platform === 'win32' ? ';' : ':');
  return folders.some((folder) => existsSync(join(folder, command)));
}

function isDebian() {
  return existsSync('/etc/debian_version') && existsSync('/etc/os-release') && /^ID(_LIKE)?=.*debian/m.test(readFileSync('/etc/os-release', 'utf8'));
}
