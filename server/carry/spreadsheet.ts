/**
 * A table as a spreadsheet (Office Open XML, ECMA-376): a zip of XML with one sheet. Texts are
 * inline strings, which no spreadsheet takes for formulas.
 */
import { strToU8, zipSync } from 'fflate';
import type { Cell } from './csv-text.ts';
import { fixedDate } from './fixed-date.ts';
import type { Column, Table } from './table.ts';

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

const TYPES = `${HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/><Override PartName="/xl/worksheets/sheet2.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`;
const RELATIONS = `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`;
const BOOK_RELATIONS = `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet2.xml"/></Relationships>`;
const SHEETS = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';

/** @param name of the first sheet; the second one says what its columns are */
export function spreadsheet<Row>(name: string, table: Table<Row>): Uint8Array {
  const { columns, rows } = table;
  const body = [...rows].map((row) => columns.map((column) => column.of(row)));
  const book = `${HEAD}<workbook ${SHEETS} xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="${escaped(name)}" sheetId="1" r:id="rId1"/><sheet name="columns" sheetId="2" r:id="rId2"/></sheets></workbook>`;
  return zipSync(
    {
      '[Content_Types].xml': strToU8(TYPES),
      '_rels/.rels': strToU8(RELATIONS),
      'xl/workbook.xml': strToU8(book),
      'xl/_rels/workbook.xml.rels': strToU8(BOOK_RELATIONS),
      'xl/worksheets/sheet1.xml': strToU8(sheet([columns.map((column) => column.name), ...body])),
      'xl/worksheets/sheet2.xml': strToU8(sheet(aboutColumns(columns))),
    },
    { mtime: fixedDate() },
  );
}

function aboutColumns<Row>(columns: readonly Column<Row>[]): Cell[][] {
  const rows = columns.map(({ name, unit, description }) => [name, unit ?? null, description]);
  return [['column', 'unit', 'what it is'], ...rows];
}

/** The first row stays in sight. */
function sheet(rows: readonly (readonly Cell[])[]): string {
  const data = rows.map((cells, at) => {
    return `<row r="${at + 1}">${cells.map((cell, place) => cellXml(cell, `${columnName(place)}${at + 1}`)).join('')}</row>`;
  });
  const pane = '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>';
  return `${HEAD}<worksheet ${SHEETS}>${pane}<sheetData>${data.join('')}</sheetData></worksheet>`;
}

function cellXml(cell: Cell, at: string): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return `<c r="${at}"><v>${cell}</v></c>`;
  if (typeof cell === 'boolean') return `<c r="${at}" t="b"><v>${cell ? 1 : 0}</v></c>`;
  return `<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${escaped(cell)}</t></is></c>`;
}

/** A, B, … Z, AA, … */
function columnName(place: number): string {
  const letter = String.fromCharCode(65 + (place % 26));
  return place < 26 ? letter : columnName(Math.floor(place / 26) - 1) + letter;
}

/** XML 1.0 has no way to write most control characters: they are made visible. */
function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\x20-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('"', '&quot;');
}
