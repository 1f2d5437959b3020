// oxlint-disable-next-line typescript/triple-slash-reference -- whoever imports this file needs the declaration too
/// <reference path="../papaparse.d.ts" />
/**
 * From text to rows of cells, by RFC 4180 and what spreadsheets make of it: comma, semicolon or tab between cells; CRLF,
 * LF or CR between rows; quoted cells with line breaks in them.
 */
import Papa from 'papaparse';
import type { Problem } from '../problem.ts';

export const SEPARATORS = [',', ';', '\t'] as const;
export type Separator = (typeof SEPARATORS)[number];

/** `number`: as a spreadsheet counts, the headings being row 1. Rows without anything in them are left out. */
export type Row = { readonly number: number; readonly cells: readonly string[] };

export type Table = {
  readonly separator: Separator;
  readonly headings: readonly string[];
  readonly rows: readonly Row[];
};

/** More rows than any barn has; a longer file is something else. */
export const MOST_ROWS = 20_000;

/** The table in `text` (without a byte order mark), or all that is wrong with its shape. */
export function readTable(text: string): Table | readonly Problem[] {
  if (text.trim() === '') return [{ at: { in: 'file' }, what: { code: 'empty' } }];
  if (text.includes('\0')) return [{ at: { in: 'file' }, what: { code: 'notText' } }];
  const even = text.replaceAll(/\r\n?/g, '\n');
  const separator = separatorOf(even);
  const { data, errors } = Papa.parse(even, { delimiter: separator, newline: '\n', quoteChar: '"' });
  if (data.length > MOST_ROWS + 1)
    return [{ at: { in: 'file' }, what: { code: 'tooLong', most: MOST_ROWS } }];
  const quotes = errors.filter((error) => error.type === 'Quotes');
  const [first] = quotes;
  // What comes after a quote that went wrong is no table any more: one problem, the first, is all that can be said.
  if (first) return [quoteProblem(first, data)];
  const [headings = [], ...rows] = data;
  const titles = headings.map((title) => title.trim());
  const filled = rows.flatMap((cells, i) =>
    cells.some((cell) => cell.trim() !== '') ? { number: i + 2, cells } : [],
  );
  const tooMany = filled.flatMap(({ number, cells }): Problem[] => {
    const extra = cells.slice(titles.length).some((cell) => cell.trim() !== '');
    const what = { code: 'tooManyCells', cells: cells.length, columns: titles.length } as const;
    return extra ? [{ at: { in: 'row', row: number }, what }] : [];
  });
  if (tooMany.length > 0) return tooMany;
  if (filled.length === 0) return [{ at: { in: 'file' }, what: { code: 'nothingInIt' } }];
  return { separator, headings: titles, rows: filled };
}

/** The sign that stands most often between the headings; a comma when there is but one column. */
function separatorOf(text: string): Separator {
  const counts = new Map<string, number>();
  let isQuoted = false;
  for (const sign of text) {
    if (sign === '"') isQuoted = !isQuoted;
    else if (isQuoted) continue;
    else if (sign === '\n') break;
    else counts.set(sign, (counts.get(sign) ?? 0) + 1);
  }
  const count = (sign: Separator): number => counts.get(sign) ?? 0;
  return SEPARATORS.reduce((best, sign) => (count(sign) > count(best) ? sign : best), ',' as Separator);
}

/** Papa counts rows from 0 and names the row the quoted cell began in. */
function quoteProblem({ row, code }: Papa.ParseError, data: readonly (readonly string[])[]): Problem {
  const at = row ?? Math.max(0, data.length - 1);
  const cells = data[at] ?? [];
  const column = Math.max(1, cells.length);
  const title = data[0]?.[column - 1]?.trim() ?? '';
  return {
    at: { in: 'cell', row: at + 1, column, title: at === 0 ? '' : title },
    what: { code: code === 'MissingQuotes' ? 'quoteOpen' : 'quoteInside' },
  };
}
