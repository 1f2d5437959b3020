/** A file as the one fact it comes to, and the fact that takes it back. */
import { own } from '../barn/basics.ts';
import type { Barn, TableRecord } from '../barn/barn.ts';
import { recordsOf } from '../barn/tables.ts';
import type { RecordsImported } from '../day/importRecords.ts';

/** Longest name of a file that is kept, in signs. */
const NAME_SIGNS = 80;

export function importOf(file: string, put: readonly TableRecord[]): RecordsImported {
  return { kind: 'recordsImported', name: file.slice(0, NAME_SIGNS), put: [...put], gone: [] };
}

/** What makes the records as they were in `before`, where `taken` found them: changed ones as they were, new ones gone. */
export function takingBack(taken: RecordsImported, before: Barn): RecordsImported {
  const put: TableRecord[] = [];
  const gone: RecordsImported['gone'] = [];
  // Backwards: what leans on another record of the file goes before it.
  for (const one of taken.put.toReversed()) {
    const was = own(recordsOf(before, one.table), one.record.id);
    if (was === undefined) gone.push({ table: one.table, id: one.record.id });
    // The record comes out of the table of this very name.
    else put.push({ table: one.table, record: was } as TableRecord);
  }
  return { ...taken, put, gone };
}
