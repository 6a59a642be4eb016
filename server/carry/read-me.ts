/** The text that whoever opens the package reads first. */
import { provenanceOf, titleOf, type PackageFacts, type Resource } from './descriptor.ts';

export function readMe(facts: PackageFacts, resources: readonly Resource[]): string {
  const { session, licence, leftOut } = facts;
  const title = titleOf(session);
  const width = Math.max(...resources.map(({ path }) => path.length));
  const lines = [
    title,
    '='.repeat(title.length),
    '',
    provenanceOf(session),
    `A session of Stillmark, begun ${session.startedAt}, id ${session.id}.`,
    '',
    ...resources.map(({ path, title }) => `${path.padEnd(width)}  ${title}`),
    '',
    'The tables are UTF-8, comma-separated (RFC 4180), with a decimal point. An empty field is not',
    'known or not measured; it is never zero. Each column is described in datapackage.json, which',
    'makes this a Data Package (https://datapackage.org). A text that a spreadsheet would take for a',
    'formula has an apostrophe before it.',
    '',
    'session.jsonl holds the stored rows themselves. With them Stillmark takes the session in on',
    'another computer, plays it, and derives its trials again from the recorded lines:',
    '',
    '    stillmark replay FILE.zip',
    '',
    licence === null
      ? 'No licence is stated: ask whoever recorded it before you publish it.'
      : `Licence: ${licence}, as stated by whoever saved this file.`,
    ...leftOut.map((sentence) => `Left out: ${sentence}`),
    '',
  ];
  return lines.join('\r\n');
}
