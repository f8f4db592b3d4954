/** A table as a spreadsheet saves it: rows of cells, each with the line it begins on. */
export interface Csv {
  readonly rows: readonly CsvRow[];
  /** Line on which a quotation mark is opened that is never closed. */
  readonly open?: number;
}
export interface CsvRow {
  /** Counted from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** What may stand between two cells: comma, semicolon where the comma is decimal, or tab. */
const SEPARATORS = [',', ';', '\t'] as const;
export type Separator = (typeof SEPARATORS)[number];

/** The separator of a table: the one that its first line uses most. */
export function separatorOf(text: string): Separator {
  const [first = ''] = text.replace(/^\uFEFF/, '').split(/\r?\n/, 1);
  const uses = (one: Separator) => first.split(one).length;
  return SEPARATORS.reduce((best, one) => (uses(one) > uses(best) ? one : best));
}

/** Reads a table as RFC 4180 writes it, with any of the separators; blank lines are left out. */
export function readCsv(text: string, separator = separatorOf(text)): Csv {
  const rows: CsvRow[] = [];
  let line = 1;
  let row: { line: number; cells: string[] } = { line, cells: [] };
  let cell = '';
  let quoted: number | undefined;
  const endCell = () => {
    row.cells.push(cell.trim());
    cell = '';
  };
  const endRow = () => {
    endCell();
    if (row.cells.some((one) => one !== '')) rows.push(row);
    row = { line, cells: [] };
  };
  const plain = text.replace(/^\uFEFF/, '').replaceAll(/\r\n?/g, '\n');
  for (let i = 0; i < plain.length; i++) {
    const sign = plain[i]!;
    if (sign === '\n') line++;
    if (quoted !== undefined) {
      if (sign !== '"') cell += sign;
      else if (plain[i + 1] === '"') {
        cell += '"';
        i++;
      } else quoted = undefined;
    } else if (sign === '"' && cell.trim() === '') {
      quoted = line;
      cell = '';
    } else if (sign === separator) endCell();
    else if (sign === '\n') endRow();
    else cell += sign;
  }
  if (cell !== '' || row.cells.length > 0) endRow();
  return quoted === undefined ? { rows } : { rows, open: quoted };
}

/** Writes a table with commas; cells that need it stand in quotation marks. */
export const writeCsv = (rows: readonly (readonly string[])[]): string =>
  rows.map((cells) => `${cells.map(written).join(',')}\n`).join('');

const written = (cell: string) =>
  /[",;\t\n\r]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
