/** Types of system-needs.mjs, which is plain JavaScript because it runs before anything is installed. */
export interface SystemNeed {
  /** The suites that need it, as a person calls them. */
  readonly suites: string;
  /** Commands or files; of each list one is enough. */
  readonly lookFor: readonly (readonly [string, ...string[]])[];
  /** Debian's packages that bring it. */
  readonly packages: readonly string[];
}

export const SYSTEM_NEEDS: Readonly<Record<'chromium' | 'socat' | 'firmware', SystemNeed>>;
export function missingOf(need: SystemNeed): string[];
export function findFirst(names: readonly string[]): string | null;

/** The command that installs it on Debian. */
export function howToInstall(need: Pick<SystemNeed, 'packages'>): string;
