/** The project's layering and taste, executable. When a rule is wrong, change it here and say why. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');

function filesBelow(folder: string, pattern: RegExp): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && pattern.test(entry.name))
    .map((entry) => relative(ROOT, join(entry.parentPath, entry.name)).split(sep).join('/'));
}

const SOURCES = ['server', 'web', 'firmware-protocol'].flatMap((folder) => filesBelow(folder, /\.tsx?$/));

/** The room a file is in: the unit that import directions are about. */
function roomOf(file: string): string {
  if (file.startsWith('server/core/')) return 'core';
  const inside = /^server\/(\w+)\//.exec(file);
  return inside?.[1] ?? file.split('/')[0] ?? file;
}

/** Which other rooms a room may import. `server` is what stands directly in server/. */
const MAY_IMPORT: Record<string, readonly string[]> = {
  'firmware-protocol': [],
  core: ['firmware-protocol'],
  sources: ['core', 'firmware-protocol'],
  store: ['core', 'firmware-protocol'],
  live: ['core', 'firmware-protocol'],
  routes: ['core', 'firmware-protocol'],
  network: ['core'],
  web: ['core', 'firmware-protocol'],
  carry: ['core', 'firmware-protocol', 'store'],
  commands: ['core', 'firmware-protocol', 'sources', 'store', 'carry', 'server'],
  server: ['core', 'firmware-protocol', 'sources', 'store', 'carry', 'live', 'routes', 'network', 'commands'],
};

function importsOf(file: string): string[] {
  const text = readFileSync(join(ROOT, file), 'utf8');
  return [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map((match) => match[1] ?? '');
}

/** The project file that an import names, or null for a package or Node itself. */
function resolveImport(file: string, specifier: string): string | null {
  if (specifier.startsWith('#core/')) return specifier.replace('#core/', 'server/core/');
  if (specifier.startsWith('#protocol/')) return specifier.replace('#protocol/', 'firmware-protocol/');
  if (!specifier.startsWith('.')) return null;
  return relative(ROOT, resolve(ROOT, dirname(file), specifier)).split(sep).join('/');
}

describe('import directions', () => {
  it('knows every room', () => {
    const rooms = new Set(SOURCES.map(roomOf));
    expect([...rooms].filter((room) => MAY_IMPORT[room] === undefined)).toEqual([]);
  });

  it('go one way only', () => {
    const wrong = SOURCES.flatMap((file) =>
      importsOf(file).flatMap((specifier) => {
        const target = resolveImport(file, specifier);
        if (target === null) return [];
        const [from, to] = [roomOf(file), roomOf(target)];
        return from === to || MAY_IMPORT[from]?.includes(to) ? [] : [`${file} imports ${target}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it('make no circles', () => {
    const graph = new Map(
      SOURCES.map((file) => [
        file,
        importsOf(file)
          .map((specifier) => resolveImport(file, specifier))
          .filter((target) => target !== null),
      ]),
    );
    expect(findCircle(graph)).toBeNull();
  });

  it('keep the core to the language alone, zod excepted', () => {
    const outside = SOURCES.filter((file) => ['core', 'firmware-protocol'].includes(roomOf(file)))
      .flatMap((file) => importsOf(file).map((specifier) => ({ file, specifier })))
      .filter(({ file, specifier }) => resolveImport(file, specifier) === null && specifier !== 'zod');
    expect(outside).toEqual([]);
  });

  it('keep clock and chance out of the core', () => {
    const impure = SOURCES.filter((file) => ['core', 'firmware-protocol'].includes(roomOf(file))).filter(
      (file) => /Date\.now|new Date\(|performance\.now|Math\.random/.test(readFileSync(join(ROOT, file), 'utf8')),
    );
    expect(impure).toEqual([]);
  });
});

function findCircle(graph: ReadonlyMap<string, readonly string[]>): string[] | null {
  const done = new Set<string>();
  const visit = (file: string, path: readonly string[]): string[] | null => {
    if (path.includes(file)) return [...path.slice(path.indexOf(file)), file];
    if (done.has(file)) return null;
    for (const target of graph.get(file) ?? []) {
      const circle = visit(target, [...path, file]);
      if (circle !== null) return circle;
    }
    done.add(file);
    return null;
  };
  for (const file of graph.keys()) {
    const circle = visit(file, []);
    if (circle !== null) return circle;
  }
  return null;
}

describe('readability', () => {
  const texts = SOURCES.map((file) => ({ file, lines: readFileSync(join(ROOT, file), 'utf8').split('\n') }));

  it('keeps lines to 100 columns', () => {
    // Long strings, patterns and drawing paths are left whole: breaking them hides them.
    const long = texts.flatMap(({ file, lines }) =>
      lines.flatMap((line, index) => (line.length > 100 && !/['`/]/.test(line) ? [`${file}:${index + 1}`] : [])),
    );
    expect(long).toEqual([]);
  });

  it('keeps files to 400 lines', () => {
    expect(texts.filter(({ lines }) => lines.length > 400).map(({ file }) => file)).toEqual([]);
  });
});
