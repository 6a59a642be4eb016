/** The test vectors of the grammar against the library that boards run. */
import { expect, it } from 'vitest';
import boardLines from '#protocol/vectors/board-lines.json' with { type: 'json' };
import hostLines from '#protocol/vectors/host-lines.json' with { type: 'json' };
import numbers from '#protocol/vectors/numbers.json' with { type: 'json' };
import { REQUEST_LIMIT, sealed } from './request-reader.ts';
import { answersOf, fields, hexadecimal } from './programs.ts';
import { needsFirmwareTools } from '../../support/needs.ts';

/** What our library never says: other versions, and time in milliseconds. */
const NEVER_SAID = [
  '$stillmark,1,again,ms,16*BFA4',
  '$stillmark,2*119F',
  '$stillmark,2,whatever,comes;then*B455',
  '$stillmark,0,boot,us,3*58B1',
  '$beat,7,12,13*F5C4',
];

needsFirmwareTools().describe('the library on the test vectors', () => {
  it('says the lines of a board byte for byte', async () => {
    const all = boardLines.good.map(({ line }) => line);
    const lines = all.filter((line) => !NEVER_SAID.includes(line));
    expect(lines.length).toBe(boardLines.good.length - NEVER_SAID.length);
    const cases = lines.map((line) => fields(...line.slice(1, -5).split(',')));
    expect(await answersOf('lines', cases)).toEqual(lines);
  });

  it('reads the lines of a host', async () => {
    const said = hostLines.good.map(({ request }) => {
      if (request.kind === 'identify') return 'identify;';
      return `${request.kind} ${request.period_us ?? request.channel};`;
    });
    expect(await readAll(hostLines.good.map(({ line }) => line))).toEqual(said);
  });

  it('obeys no faulty line of a host; one rightly sealed it answers as unknown', async () => {
    const said = hostLines.bad.map(({ line, fault }) =>
      line.startsWith('$ask') && fault === 'malformed' ? 'other;' : '',
    );
    expect(await readAll(hostLines.bad.map(({ line }) => line))).toEqual(said);
  });

  it('knows which texts are numbers', async () => {
    const texts = numbers.numbers.map(({ text }) => text);
    const cases = [...texts, ...numbers.refused].map((text) => fields('is decimal', text));
    expect(await answersOf('lines', cases)).toEqual([
      ...texts.map(() => 'yes'),
      ...numbers.refused.map(() => 'no'),
    ]);
  });

  it.each([
    ['as long as a request may be', REQUEST_LIMIT, 'other;'],
    ['longer by one', REQUEST_LIMIT + 1, ''],
  ])('reads a line %s', async (_, length, said) => {
    const line = sealed(`ask,${'x'.repeat(length - '$ask,*HHHH'.length)}`);
    expect(line.length).toBe(length);
    expect(await readAll([line])).toEqual([said]);
  });
});

async function readAll(lines: readonly string[]): Promise<string[]> {
  return answersOf('lines', lines.map((line) => fields('ask', hexadecimal(`${line}\n`))));
}
