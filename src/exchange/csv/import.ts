/** What every kind of table needs while it is read in: the barn, the names in it, and a place for what comes of it. */
import { Id } from '../../barn/fields.ts';
import type { Barn, Table } from '../../barn/barn.ts';
import { recordsOf } from '../../barn/tables.ts';
import { TABLES } from '../../barn/tableNames.ts';
import { own } from '../../barn/basics.ts';
import { Gathered } from '../gathered.ts';
import { namesIn, type Names } from '../names.ts';
import { said, type NamedTable, type Problem } from '../problem.ts';
import type { RowReader } from './row.ts';

/** As the records allow. */
export const NAME_SIGNS = 40;
export const WORDS_SIGNS = 400;
export const FULL_NAME_SIGNS = 80;

export type Import = {
  readonly barn: Barn;
  /** Chance is an argument: gives a new id. */
  readonly newId: () => string;
  readonly names: { readonly [T in NamedTable]: Names };
  readonly gathered: Gathered;
  readonly stallCount: () => number;
  /** The first row of each record, by table and id. */
  readonly rows: Map<string, number>;
};

export function beginImport(barn: Barn, newId: () => string, problems: Problem[]): Import {
  const names = namesIn(barn);
  const gathered = new Gathered(barn, problems);
  const stallCount = (): number => Object.keys(barn.stalls).length + (gathered.counts.stalls?.fresh ?? 0);
  return { barn, newId, names, gathered, stallCount, rows: new Map() };
}

/** The id of the row's record: its own column's, that of the only record of this name, or a new one. Null: a problem. */
export function idOf(
  row: RowReader,
  into: Import,
  table: Exclude<NamedTable, 'stalls' | 'staff' | 'arenas'>,
  name: string | undefined,
): string | null {
  const id = givenId(row, into, table) ?? (name === undefined ? null : idByName(row, into, table, name));
  return id === null || isSecond(row, into, `${table} ${id}`) ? null : id;
}

/** The id in the row's own column; undefined when there is none. Null: it cannot be one. */
export function givenId(row: RowReader, into: Import, table: Table): string | null | undefined {
  const text = row.raw('id');
  if (text === undefined) return undefined;
  if (!Id.safeParse(text).success) {
    row.problem('id', { code: 'badId', text: said(text) });
    return null;
  }
  // One id for two things could not be told apart when one of them is to be forgotten.
  const isElsewhere = TABLES.some((other) => other !== table && own(recordsOf(into.barn, other), text));
  if (!isElsewhere) return text;
  row.problem('id', { code: 'idElsewhere', text: said(text) });
  return null;
}

function idByName(
  row: RowReader,
  into: Import,
  table: Exclude<NamedTable, 'stalls' | 'staff' | 'arenas'>,
  name: string,
): string | null {
  // Whoever is new in this file is not among them: a second row of that name is a second record only by an id.
  const found = into.names[table].find(name);
  if (found === 'several') {
    row.problem('name', { code: 'nameTwice', text: said(name), table });
    return null;
  }
  if (found !== 'none') return found.id;
  const id = into.newId();
  into.names[table].add(id, name);
  return id;
}

/** Whether an earlier row was of the same record; then that is a problem. */
function isSecond(row: RowReader, into: Import, key: string): boolean {
  const first = into.rows.get(key);
  if (first === undefined) into.rows.set(key, row.number);
  else row.problem('name', { code: 'sameAsRow', row: first });
  return first !== undefined;
}

/** Id of the record a cell names; null with a problem when there is not exactly one; undefined for an empty cell. */
export function named(
  row: RowReader,
  into: Import,
  key: string,
  table: NamedTable,
): string | null | undefined {
  const text = row.raw(key);
  return text === undefined ? undefined : namedText(row, into, key, table, text);
}

export function namedText(
  row: RowReader,
  into: Import,
  key: string,
  table: NamedTable,
  text: string,
): string | null {
  const found = into.names[table].find(text);
  if (typeof found === 'object') return found.id;
  row.problem(key, { code: found === 'none' ? 'unknownName' : 'nameTwice', text: said(text), table });
  return null;
}
