/** The specification's examples and figures are those of the code. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { LINE_LIMIT } from '#protocol/line-guard.ts';
import { parseHeader } from '#protocol/plain-header.ts';
import { conversionOf, quantityNamed } from '#protocol/quantity.ts';
import { formatFrame, parseFrame } from '#protocol/stillmark-line.ts';

const README = readFileSync(
  join(import.meta.dirname, '../../../firmware-protocol/README.md'),
  'utf8',
);

function examples(start: RegExp): string[] {
  return README.split('\n').flatMap((row) => {
    const line = row.startsWith('    ') ? row.trim() : '';
    return start.test(line) ? [line] : [];
  });
}

it('shows Stillmark lines that are some', () => {
  const kinds = examples(/^\$/).map((line) => parseFrame(line).kind);
  expect(kinds).toEqual(['opening', 'identity', 'channel', 'channel', 'pace', 'sample', 'sample']);
});

it('shows a header in which every column is known', () => {
  const [header = ''] = examples(/^time/);
  expect(parseHeader(header)?.columns.map(({ role }) => role)).toEqual([
    'time',
    'quantity',
    'quantity',
    'quantity',
  ]);
});

it('names quantities and units that are known', () => {
  const rows = [...README.matchAll(/^\| (`[^|]+) \| ([^|]+) \|/gm)].filter(([row]) =>
    /wind|rotor|pulses|voltage|current/.test(row),
  );
  const words = (cell = ''): string[] =>
    [...cell.matchAll(/`(\w+)`/g)].map(([, word = '']) => word);
  const named = rows.flatMap(([, names, units]) =>
    words(names).flatMap((name) => words(units).map((unit) => ({ name, unit }))),
  );
  expect(named.length).toBeGreaterThan(12);
  for (const { name, unit } of named) {
    const quantity = quantityNamed(name);
    expect(quantity && conversionOf(quantity, unit), `${name} in ${unit}`).not.toBeNull();
  }
});

it.each([
  [[999, 999], 9, 9999],
  [[1023, 1023, 1023], 65_535, 2 ** 32 - 1],
  [[65_535, 65_535, 65_535], 65_535, 2 ** 32 - 1],
  [Array<number>(16).fill(-(2 ** 31)), 65_535, 2 ** 32 - 1],
])(
  'states the length of a sample line of %j and how many go through in a second',
  (counts, sequence, time) => {
    const bytes = formatFrame({ kind: 'sample', sequence, time, counts }).length + 1;
    // Ten bits a byte at 115200 Bd.
    expect(README).toContain(`| ${bytes} | ${Math.floor(11_520 / bytes)} |`);
    expect(bytes).toBeLessThanOrEqual(LINE_LIMIT);
  },
);
