// `npm test`: sets up what the suites need, then runs all of them, types and lint first. With
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
if (project === null) {
  await Promise.all([
    run('Types', 'typescript/bin/tsc', ['-p', 'server/core/tsconfig.json']).then(() => run('Types', 'typescript/bin/tsc', ['-p', 'tsconfig.json'])),
    run('Lint', 'eslint/bin/eslint.js', ['--max-warnings', '0', '.']),
  ]);
}
await run('Tests', 'vitest/vitest.mjs', ['run', ...args]);

async function run(what, script, args) {
  const command = [join(ROOT, 'node_modules', script), ...args];
  const [status] = await once(spawn(process.execPath, command, { cwd: ROOT, stdio: 'inherit' }), 'exit');
  if (status === 0) return;
  console.error(`${what}: failed (see above).`);
  process.exit(status ?? 1);
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
