/**
 * A table file, looked at: what it is, what must be asked first, what is wrong with it, and what it would come to. All or
 * nothing: with one problem or one open question there is nothing to put.
 */
import type { Barn, TableRecord } from '../../barn/barn.ts';
import type { Counts } from '../gathered.ts';
import { columnLetters, type Problem } from '../problem.ts';
import { orderOf } from './cells.ts';
import { kindsOf, mapColumns, nearestKind, type Kind, type Mapping } from './columns.ts';
import { readHorse } from './horses.ts';
import { beginImport, type Import } from './import.ts';
import { Lessons } from './lessons.ts';
import { readRider, readVolunteer } from './people.ts';
import { RowReader, type Answers } from './row.ts';
import { readTable, type Separator, type Table } from './table.ts';

/** What only a person can say. Cells from the file help to. */
export type Question =
  | { readonly ask: 'kind'; readonly of: readonly Kind[] }
  | { readonly ask: 'dateOrder'; readonly column: string; readonly example: string }
  | { readonly ask: 'weightUnit'; readonly column: string; readonly example: string };

export type TableAnswers = Answers & { readonly kind: Kind | null };

export const NO_ANSWERS: TableAnswers = { kind: null, order: null, weight: null };

export type TablePreview = {
  readonly what: 'table';
  readonly kind: Kind | null;
  readonly separator: Separator | null;
  readonly rows: number;
  /** Columns as they were understood: the file's heading and this program's. */
  readonly columns: readonly { readonly letters: string; readonly heading: string; readonly title: string }[];
  readonly unused: readonly string[];
  readonly questions: readonly Question[];
  readonly problems: readonly Problem[];
  readonly put: readonly TableRecord[];
  readonly counts: Counts;
};

export type Progress = (done: number, of: number) => void;

const PROGRESS_EVERY_ROWS = 100;

/** Looks at `text`. `newId` gives ids for what is new; the same file may be looked at again with more answers. */
export function previewTable(
  text: string,
  barn: Barn,
  answers: TableAnswers,
  newId: () => string,
  progress: Progress = () => {},
): TablePreview {
  const table = readTable(text);
  if (!isTable(table)) return { ...NOTHING, problems: table };
  const shape = { separator: table.separator, rows: table.rows.length };
  const kinds = kindsOf(table);
  const kind = answers.kind ?? (kinds.length === 1 ? (kinds[0] ?? null) : null);
  if (kind === null) {
    if (kinds.length > 1) return { ...NOTHING, ...shape, questions: [{ ask: 'kind', of: kinds }] };
    const near = nearestKind(table);
    const problems: Problem[] =
      near === null
        ? [{ at: { in: 'row', row: 1 }, what: { code: 'notRecognised' } }]
        : mapColumns(near, table.headings).problems;
    return { ...NOTHING, ...shape, kind: near, problems };
  }
  const { mapping, problems } = mapColumns(kind, table.headings);
  const known = { ...NOTHING, ...shape, kind, columns: understood(mapping, table), unused: mapping.unused };
  if (problems.length > 0) return { ...known, problems };
  const questions = questionsOf(table, mapping, answers);
  if (questions.length > 0) return { ...known, questions };
  const found: Problem[] = [];
  const into = beginImport(barn, newId, found);
  const said = { ...answers, order: answers.order ?? writtenOrder(table, mapping) };
  const rows = table.rows.map((row) => new RowReader(row, mapping, said, found));
  readRows(kind, rows, into, progress);
  if (found.length > 0) return { ...known, problems: found };
  return { ...known, put: into.gathered.put, counts: into.gathered.counts };
}

const NOTHING: TablePreview = {
  what: 'table',
  kind: null,
  separator: null,
  rows: 0,
  columns: [],
  unused: [],
  questions: [],
  problems: [],
  put: [],
  counts: {},
};

function isTable(read: Table | readonly Problem[]): read is Table {
  return 'rows' in read;
}

function understood(mapping: Mapping, { headings }: Table): TablePreview['columns'] {
  return [...mapping.columns.values()]
    .sort((a, b) => a.index - b.index)
    .map(({ index, column }) => ({
      letters: columnLetters(index + 1),
      heading: headings[index] ?? '',
      title: column.title,
    }));
}

/** The order of day and month that the column of dates itself shows. */
function writtenOrder({ rows }: Table, { columns }: Mapping): Answers['order'] {
  const found = [...columns.values()].find(({ column }) => column.isDate);
  const order = found && orderOf(rows.map((row) => row.cells[found.index] ?? ''));
  return order === 'dmy' || order === 'mdy' ? order : null;
}

/** Asked only where the file's own cells leave it open. */
function questionsOf({ rows, headings }: Table, { columns }: Mapping, answers: Answers): Question[] {
  const questions: Question[] = [];
  for (const { index, column, unit } of columns.values()) {
    const cells = rows.map((row) => row.cells[index] ?? '').filter((cell) => cell.trim() !== '');
    const [example] = cells;
    if (example === undefined) continue;
    const name = headings[index] ?? column.title;
    if (column.isDate && answers.order === null && orderOf(cells) === 'either') {
      const open = cells.find((cell) => orderOf([cell]) === 'either') ?? example;
      questions.push({ ask: 'dateOrder', column: name, example: open.trim() });
    }
    if (column.isWeight && unit === null && answers.weight === null) {
      questions.push({ ask: 'weightUnit', column: name, example: example.trim() });
    }
  }
  return questions;
}

function readRows(kind: Kind, rows: readonly RowReader[], into: Import, progress: Progress): void {
  const lessons = new Lessons(into);
  const read: { readonly [K in Kind]: (row: RowReader) => void } = {
    horses: (row) => readHorse(row, into),
    volunteers: (row) => readVolunteer(row, into),
    riders: (row) => readRider(row, into),
    lessons: (row) => lessons.read(row),
  };
  rows.forEach((row, i) => {
    read[kind](row);
    if ((i + 1) % PROGRESS_EVERY_ROWS === 0) progress(i + 1, rows.length);
  });
  if (kind === 'lessons') lessons.finish();
  progress(rows.length, rows.length);
}
