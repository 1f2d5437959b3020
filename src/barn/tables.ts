/** Reading and changing the barn’s tables of records. */
import { put, without } from './basics.ts';
import { isBookTable } from './tableNames.ts';
import type { Barn, TableRecord, Table } from './barn.ts';

/** The records of one table, keyed by id. */
export function recordsOf<T extends Table>(
  barn: Barn,
  table: T,
): Readonly<Record<string, Extract<TableRecord, { table: T }>['record']>>;
export function recordsOf(barn: Barn, table: Table): Readonly<Record<string, { id: string }>> {
  return isBookTable(table) ? barn.book[table] : barn[table];
}

/** The barn with one record saved. */
export function withRecord(barn: Barn, { table, record }: TableRecord): Barn {
  return withTable(barn, table, put<unknown>(recordsOf(barn, table), record.id, record));
}

/** The barn with these records saved and those gone: each table is copied once, however many there are. */
export function withRecords(
  barn: Barn,
  put: readonly TableRecord[],
  gone: readonly { readonly table: Table; readonly id: string }[],
): Barn {
  const changed = new Map<Table, Record<string, unknown>>();
  const copy = (table: Table): Record<string, unknown> => {
    const known = changed.get(table) ?? { ...recordsOf(barn, table) };
    changed.set(table, known);
    return known;
  };
  for (const { table, record } of put) copy(table)[record.id] = record;
  for (const { table, id } of gone) delete copy(table)[id];
  return [...changed].reduce((next, [table, records]) => withTable(next, table, records), barn);
}

/** The barn without one record; the same reference when there is none. */
export function withoutRecord(barn: Barn, table: Table, id: string): Barn {
  const records: Record<string, unknown> = recordsOf(barn, table);
  const left = without(records, id);
  return left === records ? barn : withTable(barn, table, left);
}

function withTable(barn: Barn, table: Table, records: Readonly<Record<string, unknown>>): Barn {
  return isBookTable(table)
    ? { ...barn, book: { ...barn.book, [table]: records } }
    : { ...barn, [table]: records };
}
