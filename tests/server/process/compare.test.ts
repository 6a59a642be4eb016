/** `stillmark compare` as a person meets it: what it prints, and the exit code. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ComparisonSchema } from '#core/experiment/comparison/comparison-schema.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import { runCommand } from '../../support/server-process.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillmark-compare-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the command on a table with columns a and y. */
async function compareTable(text: string, ...more: string[]) {
  const file = join(folder, 'table.csv');
  writeFileSync(file, text);
  return runCommand('compare', file, '--factor', 'a', '--response', 'y', ...more);
}

async function comparisonOf(text: string, ...more: string[]) {
  const { code, stdout, stderr } = await compareTable(text, '--json', ...more);
  expect([code, stderr]).toEqual([0, '']);
  return ComparisonSchema.parse(JSON.parse(stdout));
}

// NIST/SEMATECH e-Handbook, 7.4.3 (data from memory).
const HANDBOOK = [
  [6.9, 5.4, 5.8, 4.6, 4.0],
  [8.3, 6.8, 7.8, 9.2, 6.5],
  [8.0, 10.5, 8.1, 6.9, 9.3],
  [5.8, 3.8, 6.1, 5.6, 6.2],
].flatMap((group, i) => group.map((y) => `${i + 1},${y}`));

describe('stillmark compare', () => {
  it('gives the object of the contract', async () => {
    const found = await comparisonOf(['a,y', ...HANDBOOK].join('\r\n'));
    expect(Object.keys(found)).toEqual(
      expect.arrayContaining(['levels', 'anova', 'welch', 'tukey', 'gamesHowell', 'blocked', 'best', 'optimum', 'next']),
    );
    expect(found.anova).toEqual({ f: expect.closeTo(9.72384, 5) as number, dfBetween: 3, dfWithin: 16, p: expect.closeTo(6.8445e-4, 8) as number });
    expect(found.best).toMatchObject({ level: 3, tiedWith: [2] });
    expect(found.blocked).toBeNull();
  });

  it('says it in words and a table', async () => {
    const { code, stdout } = await compareTable(['a,y', ...HANDBOOK].join('\n'));
    expect(code).toBe(0);
    expect(stdout).toContain("a 3 shows the most y so far, but it can't be told apart yet from a 2");
    expect(stdout).toContain('F(3, 16) = 9.72');
    expect(stdout).not.toMatch(/significant|NaN|Infinity|undefined|null/);
  });

  it('passes over lines of nothing but blanks, and lets no control character through', async () => {
    const { code, stdout } = await compareTable('a,y\n   \n\u001b[31mred,1\nred,1.2\n , \nred,1.1\n"r\ned",2');
    expect(code).toBe(0);
    expect(stdout).toContain('[31mred');
    expect(stdout).toContain('r ed');
    expect(stdout).not.toContain('\u001b');
  });

  it.each([
    ['a,y\n1,"0,30"', 'line 2: y is “0,30”, which is not a number (write a decimal point)'],
    ['a,y\n1,2e-300', 'line 2: y is too small to be true'],
    ['a,y\n1', 'line 2: it has 1 field, but there are 2 columns'],
  ])('names what is wrong in %j', async (text, sentence) => {
    const { code, stderr } = await compareTable(text);
    expect([code, stderr.includes(sentence)]).toEqual([2, true]);
  });

  it('reads quotes, a byte order mark, semicolons, decimal commas and line ends of any kind', async () => {
    const found = await comparisonOf('\uFEFF"a";"y";"note; what"\r\n"20";0,25;"x ""y"""\r\n20;0,35;\r\n35;0,5;"two\nlines"\r\n35;0,7;\r\n');
    expect(found.levels.map(({ level, mean }) => [level, mean])).toEqual([
      [20, expect.closeTo(0.3, 12)], [35, expect.closeTo(0.6, 12)],
    ]);
  });

  it('compares within blocks', async () => {
    const rows = [0, 1, 2, 3].flatMap((round) => [`short,${round * 5 + 1 + (round % 2) * 0.1},${round}`, `long,${round * 5 + 2},${round}`]);
    const found = await comparisonOf(['a,y,round', ...rows].join('\n'), '--block', 'round');
    expect(found.blocked).toMatchObject({ dfBetween: 1, dfWithin: 3 });
    expect(found.best).toMatchObject({ level: 'long', tiedWith: [] });
  });

  // D. C. Montgomery, Design and Analysis of Experiments, ch. 5, battery life in hours (data and
  // F values 7.91, 28.97 and 3.56 from memory).
  const BATTERIES = [
    ['1', '15', [130, 155, 74, 180]], ['1', '70', [34, 40, 80, 75]], ['1', '125', [20, 70, 82, 58]],
    ['2', '15', [150, 188, 159, 126]], ['2', '70', [136, 122, 106, 115]], ['2', '125', [25, 70, 58, 45]],
    ['3', '15', [138, 110, 168, 160]], ['3', '70', [174, 120, 150, 139]], ['3', '125', [96, 104, 82, 60]],
  ] as const;
  const CELLS = BATTERIES.flatMap(([a, b, hours]) => hours.map((y) => `${a},${b},${y}`));

  it('takes two factors apart, and says which combination is highest', async () => {
    const table = ['a,temperature_degC,y', ...CELLS].join('\n');
    const found = await comparisonOf(table, '--second', 'temperature_degC');
    expect(found.twoFactor).toMatchObject({
      factor: { f: expect.closeTo(7.91, 2) as number, df: 2 },
      second: { f: expect.closeTo(28.97, 2) as number, df: 2 },
      interaction: { f: expect.closeTo(3.56, 2) as number, df: 4, p: expect.closeTo(0.0186, 4) as number },
      dfWithin: 27,
    });
    expect(found.levels).toHaveLength(9);
    expect(found.best.level).toBe('a 2, 15 degC');
    const { stdout } = await compareTable(table, '--second', 'temperature_degC');
    expect(stdout).toContain('temperature_degC: F(2, 27) = 29, p < 0.0001');
    expect(stdout).toContain('one changes what the other does: F(4, 27) = 3.56, p = 0.0186');
  });

  it('sees a drift over the order that is named, whatever the order of the rows', async () => {
    const order = [1, 4, 5, 8, 9, 2, 3, 6, 7, 10];
    const rows = order.map((n, i) => `${i % 2},${10 + 5 * (i % 2) + 0.4 * n + 0.01 * (i % 3)},${n}`);
    const table = ['a,y,n', ...rows].join('\n');
    const { drift } = await comparisonOf(table, '--order', 'n');
    expect(drift?.slope).toBeCloseTo(0.4, 2);
    expect(drift?.p).toBeLessThan(1e-6);
    expect((await comparisonOf(table)).drift).toBeNull();
    expect((await compareTable(table, '--order', 'n')).stdout).toContain('0.40 with each step, p < 0.0001');
  });

  it.each([
    [['1,5,1,', '1,5,2,', '2,6,3,', '2,6,4,'], [], true],
    [['1,5,1,', '2,6,2,', '1,5,3,', '2,6,4,'], [], false],
    [['1,5,1,x', '2,6,2,x', '1,5,3,z', '2,6,4,z'], ['--block', 'b'], true],
    [['1,5,1,x', '2,6,2,x', '2,6,3,z', '1,5,4,z'], ['--block', 'b'], false],
  ])('warns of an order in which a drift passes for the level: %j', async (rows, more, isWeak) => {
    const { code, stderr } = await compareTable(['a,y,n,b', ...rows].join('\n'), '--order', 'n', ...more);
    expect([code, stderr.includes('may pass for the level')]).toEqual([0, isWeak]);
  });

  it('of one trial a level says the least that its ± can be', async () => {
    const table = 'a,y,u\n20,5,0.1\n35,4,\n';
    const { levels, best } = await comparisonOf(table, '--uncertainty', 'u');
    expect(best.reason).toBe('tried-once');
    expect(levels.map(({ limitsFrom }) => limitsFrom)).toEqual(['reading', null]);
    expect((levels[0]?.high ?? 0) - 5).toBeCloseTo(2 * 0.1, 9);
    expect((await compareTable(table, '--uncertainty', 'u')).stdout).toMatch(/a 20 .*± 0.20 at least/);
  });

  it.each([
    ['an order that is no number', ['--order', 'z'], 'line 2: z is “x”, which is not a number'],
    ['an uncertainty below none', ['--uncertainty', 'u'], 'line 2: u is below 0'],
    ['a second factor that is the first', ['--second', 'a'], 'Each option names a column of its own'],
    ['a second factor that is not there', ['--second', 'b'], 'there is no column “b”'],
  ])('refuses %s', async (_, options, said) => {
    const { code, stdout, stderr } = await compareTable('a,y,z,u\n1,2,x,-1\n', ...options);
    expect([code, stdout, stderr.includes(said)]).toEqual([2, '', true]);
  });

  it('keeps a rotor that did not turn apart', async () => {
    const found = await comparisonOf('a,y\n20,1\n20,1.1\n50,2\n50,2.2\n80,did not turn\n');
    expect(found.levels[2]).toMatchObject({ level: 80, count: 0, didNotTurn: 1, mean: null });
  });

  it('leaves rows without a response out and says so', async () => {
    const { code, stdout, stderr } = await compareTable('a,y\n20,1\n20,NaN\n20,\n20,1.1\n', '--json');
    expect(code).toBe(0);
    expect(stderr).toContain('table.csv line 3: y is missing');
    expect(stderr).toContain('table.csv line 4: y is missing');
    expect(ComparisonSchema.parse(JSON.parse(stdout)).levels[0]).toMatchObject({ count: 2 });
  });

  it('takes a table that was exported here as it is: what counts for nothing is left out', async () => {
    const table = [
      'run,struck,recorded,rotor_still,a,y',
      ',false,true,false,,7',
      'r1 a=20,false,true,false,20,1',
      'r2 a=20,false,true,false,20,1.1',
      'r1 a=20,true,true,false,20,9',
      'r3 a=20,false,false,false,20,8',
      'r1 a=80,false,true,true,80,0.0001',
    ];
    const { code, stdout, stderr } = await compareTable(table.join('\n'), '--json');
    expect(code).toBe(0);
    expect(stderr.match(/line \d: [^;]*/g)).toEqual([
      'line 2: it belongs to no run',
      'line 5: it is struck',
      'line 6: it was cut short',
    ]);
    expect(ComparisonSchema.parse(JSON.parse(stdout)).levels).toMatchObject([
      { level: 20, count: 2, mean: 1.05 },
      { level: 80, count: 0, didNotTurn: 1, mean: null },
    ]);
  });

  it.each([
    ['text where a number belongs', 'a,y\n1,2\n2,abc\n', 'table.csv line 3: y is “abc”'],
    ['a column that is not there', 'a,x\n1,2\n', 'there is no column “y”. There are “a”, “x”.'],
    ['two columns of the same name', 'a,y,y\n1,2,3\n', 'two columns are called “y”'],
    ['a row with another number of fields', 'a,y\n1,2,3\n', 'table.csv line 2: it has 3 fields'],
    ['an empty level', 'a,y\n,2\n', 'table.csv line 2: a is empty'],
    ['an empty file', '', 'table.csv is empty'],
    ['no row at all', 'a,y\n', 'no row with a y'],
    ['a quotation mark without its partner', 'a,y\n"1,2\n', 'table.csv line 2: the row does not end'],
    ['a column that holds no levels', `a,y\n${Array.from({ length: 200 }, (_, i) => `${i},1`).join('\n')}`, 'more than 100 different values'],
  ])('refuses %s with line and what to do', async (_, table, said) => {
    const { code, stdout, stderr } = await compareTable(table);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(said);
  });

  it('asks for what is missing on the command line', async () => {
    expect((await runCommand('compare')).code).toBe(2);
    expect((await runCommand('compare', join(folder, 'nothing.csv'), '--factor', 'a', '--response', 'y')).stderr).toContain('There is no file');
    expect((await runCommand('compare', 'x.csv', '--factor', 'a')).stderr).toContain('--response COLUMN');
  });

  it('copes with a hundred thousand rows', async () => {
    const random = createRandom(4);
    const rows = Array.from({ length: 100_000 }, (_, i) => `${(i % 5) * 10},${(5 + (i % 5) + normal(random)).toFixed(4)}`);
    const found = await comparisonOf(['a,y', ...rows].join('\n'));
    expect(found.anova).toMatchObject({ dfBetween: 4, dfWithin: 99_995 });
    expect(found.best).toMatchObject({ level: 40, tiedWith: [] });
  });
});
