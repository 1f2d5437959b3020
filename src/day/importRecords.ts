/** A whole file of records at once. */
import { own } from '../barn/basics.ts';
import type { TableRecord } from '../barn/barn.ts';
import { withRecords } from '../barn/tables.ts';
import type { Horse } from '../barn/horse.ts';
import type { Board } from './board.ts';
import type { Fact } from './ops.ts';

export type RecordsImported = Extract<Fact, { kind: 'recordsImported' }>;

/** The board with all of the file; `keep` gives what of a known horse no file may change. */
export function importRecords(
  board: Board,
  { put, gone }: RecordsImported,
  keep: (record: Horse, known: Horse) => Horse,
): Board {
  if (put.length + gone.length === 0) return board;
  const kept = put.map((one): TableRecord => {
    const known = one.table === 'horses' ? own(board.barn.horses, one.record.id) : undefined;
    return one.table === 'horses' && known ? { table: 'horses', record: keep(one.record, known) } : one;
  });
  return { ...board, barn: withRecords(board.barn, kept, gone) };
}
