/** The barn: the programme's standing records, each table keyed by id. */
import * as z from 'zod/mini';
import { Id, put, ShownName, without } from './basics.ts';
import {
  Book,
  BOOK_TABLES,
  BookException,
  EMPTY_BOOK,
  isBookTable,
  PatternLesson,
  PlannedLesson,
  Shift,
  Term,
} from './book.ts';
import { Horse, Stall } from './horse.ts';
import { Arena, Helmet, Rider, Staff, Volunteer } from './people.ts';
import { DEFAULT_RULES, Rules } from './rules.ts';

/** An IANA zone name this machine knows, e.g. `America/Denver`. */
export const ZoneName = z.string().check(
  z.maxLength(60),
  z.refine((name) => isZone(name)),
);

export const Barn = z.object({
  name: ShownName,
  zone: ZoneName,
  rules: Rules,
  stalls: z.record(Id, Stall),
  horses: z.record(Id, Horse),
  volunteers: z.record(Id, Volunteer),
  staff: z.record(Id, Staff),
  riders: z.record(Id, Rider),
  arenas: z.record(Id, Arena),
  /** What repeats and what is planned. The coordinator's alone: it names riders of dates to come. */
  book: z._default(Book, EMPTY_BOOK),
  helmets: z._default(z.record(Id, Helmet), {}),
});
export type Barn = z.infer<typeof Barn>;

/** One record to save, tagged with the table it belongs to. */
export const TableRecord = z.discriminatedUnion('table', [
  z.object({ table: z.literal('stalls'), record: Stall }),
  z.object({ table: z.literal('horses'), record: Horse }),
  z.object({ table: z.literal('volunteers'), record: Volunteer }),
  z.object({ table: z.literal('staff'), record: Staff }),
  z.object({ table: z.literal('riders'), record: Rider }),
  z.object({ table: z.literal('arenas'), record: Arena }),
  z.object({ table: z.literal('helmets'), record: Helmet }),
  z.object({ table: z.literal('pattern'), record: PatternLesson }),
  z.object({ table: z.literal('planned'), record: PlannedLesson }),
  z.object({ table: z.literal('terms'), record: Term }),
  z.object({ table: z.literal('exceptions'), record: BookException }),
  z.object({ table: z.literal('shifts'), record: Shift }),
]);
export type TableRecord = z.infer<typeof TableRecord>;

export const TABLES = [
  'stalls',
  'horses',
  'volunteers',
  'staff',
  'riders',
  'arenas',
  'helmets',
  ...BOOK_TABLES,
] as const;
export const Table = z.enum(TABLES);
export type Table = z.infer<typeof Table>;

export function emptyBarn(name: string, zone: string): Barn {
  return {
    name,
    zone,
    rules: DEFAULT_RULES,
    stalls: {},
    horses: {},
    volunteers: {},
    staff: {},
    riders: {},
    arenas: {},
    book: EMPTY_BOOK,
    helmets: {},
  };
}

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

function isZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
