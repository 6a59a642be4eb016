/** Types of setup.mjs, which is plain JavaScript because it runs before anything is installed. */
export function requireNode(): void;
export function ensureDependencies(): void;
export function linkObstacle(modules: string): string | null;
export function ensureBuild(): Promise<void>;
