import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkCsv, CsvError, readCsvLines, type CsvBatch } from '../../../server/sources/csv.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'csv-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

function file(content: string | Uint8Array): string {
  const path = join(folder, 'run.csv');
  writeFileSync(path, content);
  return path;
}

async function read(path: string): Promise<{ lines: string[]; numbers: number[] }> {
  const batches: CsvBatch[] = [];
  for await (const batch of readCsvLines(path)) batches.push(batch);
  return {
    lines: batches.flatMap((batch) => batch.lines),
    numbers: batches.flatMap(({ firstLine, lines }) => lines.map((_, index) => firstLine + index)),
  };
}

describe('a recording', () => {
  it('comes out as plain lines with their places in the file', async () => {
    const path = file('time_s,voltage_V,current_A,windSpeed_mps\r\n0,4.2,0.15,5.3\r\n\r\n0.02,4.3,0.16,5.2\r\n');
    expect(await read(path)).toEqual({
      lines: ['time_s,voltage_V,current_A,windSpeed_mps', '0,4.2,0.15,5.3', '0.02,4.3,0.16,5.2'],
      numbers: [1, 2, 4],
    });
  });

  it('may have its columns in any order, others between them, quotes and a mark before', async () => {
    const path = file('\uFEFF"note","current_A",time_s,,voltage_V\n"windy, wet\nday",0.15,"0",x,4.2\nfine,0.16,0.02,,4.3\n');
    expect(await read(path)).toEqual({
      lines: ['note,current_A,time_s,,voltage_V', ',0.15,0,,4.2', ',0.16,0.02,,4.3'],
      numbers: [1, 2, 4],
    });
  });

  it('may have the columns of a board, and semicolons or tabs between them', async () => {
    expect((await read(file('time_ms;current_mA\n20;151.8\n'))).lines).toEqual(['time_ms;current_mA', '20;151.8']);
    expect((await read(file('time_ms\tcurrent_mA\n20\t151.8\n'))).lines).toEqual(['time_ms\tcurrent_mA', '20\t151.8']);
  });

  it('may have decimal commas where commas separate nothing', async () => {
    const path = file('time_s;voltage_V;current_A\n0,5;-1,25;,15\n1;1,2,3;1.234,5\n');
    expect((await read(path)).lines.slice(1)).toEqual(['0.5;-1.25;.15', '1;1,2,3;1.234,5']);
  });

  it('keeps a missing reading missing', async () => {
    const path = file('time_s,voltage_V,current_A\n0,,0.15\n1,nan,0.15\n');
    expect((await read(path)).lines.slice(1)).toEqual(['0,,0.15', '1,nan,0.15']);
  });

  it('keeps the number of fields of a row that has too few or too many', async () => {
    const path = file('time_s,note,voltage_V\n0,4.2\n1,2,3,4\n');
    expect((await read(path)).lines.slice(1)).toEqual(['0,', '1,,3,']);
  });

  it('lets no field pass for two, for none, or for more than a number is', async () => {
    const path = file(`time_s,voltage_V,current_A\n0,"1,5",0.1\n0,"1\n5",0.1\n0,−5,0.1\n0,${'7'.repeat(300)},0.1\n0,"""5",0.1\n`);
    expect((await read(path)).lines.slice(1)).toEqual(['0,1?5,0.1', '0,1?5,0.1', '0,?5,0.1', '0,?,0.1', '0,?5,0.1']);
  });

  it('keeps a header a header though a column that is not read begins like a number', async () => {
    expect((await read(file('time_s,voltage_V,3rd reading\n0,4.2,9\n'))).lines).toEqual([
      'time_s,voltage_V,column 3rd reading',
      '0,4.2,',
    ]);
  });

  it('streams through a large file in order', async () => {
    const rows = Array.from({ length: 50_000 }, (_, index) => `${(index / 50).toFixed(2)},4.2,0.15`);
    const { lines, numbers } = await read(file(`time_s,voltage_V,current_A\n${rows.join('\n')}`));
    expect(lines.slice(1)).toEqual(rows);
    expect(numbers.at(-1)).toBe(50_001);
  });
});

describe('a recording may have', () => {
  it('names with units as spreadsheets have them (quantity and unit: ISO 80000-1, from memory)', async () => {
    const path = file('Time (s);Voltage [mV];Current / mA;Wind speed (km/h);Air temperature (°C)\n0;1,5;2;3;20\n');
    expect((await read(path)).lines).toEqual([
      'time_s;Voltage_mV;Current_mA;Wind_speed_kmph;Air temperature (?C)',
      '0;1.5;2;3;',
    ]);
  });

  // The first pair is an example of RFC 3339, section 5.8: the same instant, said in two zones.
  it.each([
    ['time', ['1996-12-19T16:39:57-08:00', '1996-12-20T00:39:57Z', '1996-12-20T00:39:57.25Z'], ['0', '0', '0.25']],
    ['Timestamp', ['2024-02-28 23:59:59.9', '2024-02-29 00:00:00,000123', '2024-02-29T24:00:00'], ['0', '0.100123', '2024-02-29T24:00:00']],
    ['time_s', ['23:59:58', '23:59:59.5', '00:00:01', '7:00:00'], ['0', '1.5', '3', '25202']],
  ])('time stamps instead of seconds: %s', async (name, stamps, seconds) => {
    const path = file(`${name};voltage_V\n${stamps.map((stamp) => `${stamp};4`).join('\n')}\n`);
    expect((await read(path)).lines).toEqual(['time_s;voltage_V', ...seconds.map((time) => `${time};4`)]);
  });

  it('no bare numbers where the time has no unit', async () => {
    await expect(read(file('time,voltage_V\n46085.4271,4\n'))).rejects.toThrow(/run\.csv line 2: “46085\.4271” is no time stamp .* time_ms/);
  });

  it('a row that is longer than any, which is passed over by its line', async () => {
    const batches: CsvBatch[] = [];
    const path = file(`time_s,voltage_V\n0,4\n${'x'.repeat(200_000)}\n1,4\n`);
    for await (const batch of readCsvLines(path)) batches.push(batch);
    expect(batches.filter(({ dropped }) => dropped !== undefined)).toEqual([{ firstLine: 3, lines: [], dropped: 'tooLong' }]);
    expect(batches.flatMap(({ lines }) => lines)).toEqual(['time_s,voltage_V', '0,4', '1,4']);
    await expect(read(file('x'.repeat(200_000)))).rejects.toThrow(/line 1: the row does not end/);
  });
});

async function failure(path: string): Promise<CsvError> {
  const error: unknown = await checkCsv(path).then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof CsvError)) throw new Error(`no coded error but ${String(error)}`);
  return error;
}

describe('a file that is no recording is refused with file, line and what to do', () => {
  it('missing', async () => {
    const error = await failure(join(folder, 'none.csv'));
    expect(error).toMatchObject({ code: 'file-missing' });
    expect(error.message).toMatch(/none\.csv\. Check its name/);
  });

  it('a folder', async () => {
    expect(await failure(folder)).toMatchObject({ code: 'file-is-folder' });
  });

  it('not text, or text in two bytes a character', async () => {
    expect(await failure(file(Uint8Array.of(1, 0, 2, 0)))).toMatchObject({ code: 'file-not-text' });
    expect(await failure(file(Buffer.from('time_s,voltage_V\n', 'utf16le')))).toMatchObject({ code: 'file-not-text' });
  });

  it.each(['', '\n\n\r\n', '\uFEFF'])('empty: %j', async (content) => {
    expect(await failure(file(content))).toMatchObject({ code: 'csv-empty' });
  });

  it.each([
    ['voltage_V,current_A\n1,2\n', /line 1: there is no column time_s/],
    ['time_s,note\n1,2\n', /line 1: there is no column with voltage, current or wind speed/],
    ['time_s,temperature_degC\n1,2\n', /line 1: there is no column with voltage/],
    ['Zeit;Spannung\n1;2\n', /line 1: there is no column time_s/],
    ['0.00,4.2,0.15\n', /numbers where the names/],
    ['\n\nvoltage_V,voltage_V\n', /line 3: there is no column time_s/],
  ])('without usable columns: %j', async (content, message) => {
    const error = await failure(file(content));
    expect(error.code).toBe('csv-columns-unusable');
    expect(error.message).toMatch(message);
    expect(error.message).toContain('time_s,voltage_V,current_A,windSpeed_mps');
  });

  it('with a quotation mark that lacks its partner', async () => {
    const path = file(`time_s,voltage_V\n0,4.2\n1,"4.2\n${'2,4.2\n'.repeat(20_000)}`);
    await expect(read(path)).rejects.toThrow(/run\.csv line 3: the row does not end\. A quotation mark/);
  });
});
