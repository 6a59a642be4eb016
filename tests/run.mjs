// `npm test`: sets up what the suites need, then runs all of them, with types and lint. With
// `--project NAME` only that suite, and only what it needs. A suite that can't run here is named with
// the reason; in CI that is a failure.
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../server/root.mjs';
import { ensureBuild, ensureDependencies, requireNode } from '../server/setup.mjs';
import { howToInstall, missingOf, SYSTEM_NEEDS } from './support/system-needs.mjs';

const args = process.argv.slice(2);
const project = args.includes('--project') ? args[args.indexOf('--project') + 1] : null;

requireNode();
ensureDependencies();
installSystemPackages();
await ensureBuild();
// The suites that come first mostly wait: types and lint are done beside them, one after the other.
const done = await Promise.all([
  run('Tests', 'vitest/vitest.mjs', ['run', ...args]).then((result) => [result]),
  project === null ? checkText() : [],
]);
const failed = done.flat().filter(({ status }) => status !== 0);
// What was said long ago is not on the screen any more.
for (const { what } of failed) console.error(`${what}: failed (see above).`);
if (failed.length > 0) process.exit(1);

async function checkText() {
  return [
    await run('Types', 'typescript/bin/tsc', ['-p', 'server/core/tsconfig.json']),
    await run('Types', 'typescript/bin/tsc', ['-p', 'tsconfig.json']),
    await run('Lint', 'eslint/bin/eslint.js', ['--max-warnings', '0', '.']),
  ];
}

async function run(what, script, args) {
  const command = [join(ROOT, 'node_modules', script), ...args];
  const [status] = await once(spawn(process.execPath, command, { cwd: ROOT, stdio: 'inherit' }), 'exit');
  return { what, status };
}

function installSystemPackages() {
  const needs = Object.values(SYSTEM_NEEDS).filter(({ suites }) => project === null || suites === project);
  const unmet = needs.filter((need) => missingOf(need).length > 0);
  if (unmet.length === 0) return;
  if (!isDebian() || process.getuid?.() !== 0) {
    for (const need of unmet) {
      const missing = missingOf(need).join(', ');
      console.log(`Left out: the ${need.suites} tests, because of what is not installed here: ${missing} (Debian: ${howToInstall(need)}).`);
    }
    return;
  }
  const packages = unmet.flatMap((need) => need.packages);
  console.log(`Setting up: installing Debian packages for the tests: ${packages.join(', ')} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env });
  const install = ['satisfy', '-y', '-qq', '--no-install-recommends', ...packages];
  const { status } = spawnSync('apt-get', install, { stdio: ['ignore', 'ignore', 'inherit'], env });
  if (status !== 0) console.error('Installing them failed; the tests that need them will say so.');
}

function isDebian() {
  return existsSync('/etc/debian_version') && existsSync('/etc/os-release') && /^ID(_LIKE)?=.*debian/m.test(readFileSync('/etc/os-release', 'utf8'));
}
