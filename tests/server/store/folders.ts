/** Folders, processes and waiting, for the store's tests. */
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { onTestFinished } from 'vitest';

const HOLDER = join(import.meta.dirname, 'hold-data-file.ts');

/** A folder of its own for one test. */
export function temporaryFolder(): string {
  const folder = makeFolder();
  onTestFinished(() => removeFolder(folder));
  return folder;
}

/** For what several tests share; whoever makes it removes it. */
export function makeFolder(): string {
  return mkdtempSync(join(tmpdir(), 'stillmark-store-'));
}

export function removeFolder(folder: string): void {
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
}

/** Waits until it is so; the test's time-out is the limit. */
export async function until(isSo: () => boolean): Promise<void> {
  while (!isSo()) await pause(10);
}

/**
 * Runs a piece of JavaScript in another process. What touches a file that SQLite has open here must:
 * on POSIX systems closing the file in this process would drop SQLite's locks.
 */
export function elsewhere(script: string, ...parameters: string[]): string {
  const prelude = "const fs = require('node:fs'); const [, ...given] = process.argv;";
  return execFileSync(process.execPath, ['-e', prelude + script, ...parameters], { encoding: 'utf8' });
}

/** Takes the data file's write lock in another process; the answer lets it go. */
export async function holdElsewhere(folder: string): Promise<() => void> {
  const child = spawn(process.execPath, ['--import', 'tsx', HOLDER, folder], { stdio: ['pipe', 'pipe', 'inherit'] });
  onTestFinished(() => void child.kill());
  await once(child.stdout, 'data');
  return () => child.stdin.end();
}

/** Mounting a disk for a test takes Linux and the rights to do so (in a container: by default). */
export function canMount(): boolean {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return false;
  const point = mkdtempSync(join(tmpdir(), 'stillmark-mount-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'none', point], { stdio: 'ignore' });
    execFileSync('umount', [point], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  } finally {
    rmSync(point, { recursive: true, force: true });
  }
}

/** Puts a disk of this size (as `mount` writes it) in memory at `folder`, for one test. */
export function mountSmallDisk(folder: string, size: string): void {
  execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${size}`, 'none', folder]);
  // Lazily: a thread that is ending may still hold a file.
  onTestFinished(() => void execFileSync('umount', ['-l', folder]));
}

export function remountReadOnly(folder: string): void {
  execFileSync('mount', ['-o', 'remount,ro', folder]);
}
