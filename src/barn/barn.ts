/** The barn: the programme's standing records, each table keyed by id. */
import { TABLES, EMPTY_BOOK } from './tableNames.ts';
import * as z from 'zod/mini';
import { Id, ShownName } from './fields.ts';
import { Book, BookException, PatternLesson, PlannedLesson, Shift, Term } from './book.ts';
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

function isZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
