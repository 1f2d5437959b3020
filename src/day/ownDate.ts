/**
 * A date other than the open day, changed as that date's own. What a day can be told about its lessons and people is told to
 * the day as the book has it, and what comes of it is written into the book for that date alone: a weekly lesson gets a
 * form of its own for the date, or is off on it, and stays as it is in every other week.
 */
import type { TableRecord } from '../barn/barn.ts';
import { own } from '../barn/basics.ts';
import { recordsOf } from '../barn/tables.ts';
import type { PlannedLesson } from '../barn/book.ts';
import type { Lesson } from '../barn/lesson.ts';
import { MINUTE_MS } from '../time/units.ts';
import { instantAt, wallTimeAt } from '../time/zone.ts';
import type { Board } from './board.ts';
import { boardOn } from './boardOn.ts';
import { decide } from './decide.ts';
import { evolve } from './evolve.ts';
import { dayFromBook, type Source } from './fromBook.ts';
import { HUB_DEVICE } from './hubDevice.ts';
import type { OpFact, Reason } from './ops.ts';
import { lessonEnd } from './preps.ts';

/** Changes of records alone. */
export type BookFact = Extract<OpFact, { kind: 'recordSaved' | 'recordRetired' }>;

export type OwnDate =
  | { readonly facts: readonly BookFact[]; readonly why: null }
  | { readonly facts: readonly []; readonly why: Reason };

/**
 * What `fact`, said of `date` (ISO 8601), changes in the book; or what stands against it, as it would on the day itself.
 * `newId` names new records. Throws RangeError for a date no calendar has.
 */
export function onOtherDate(board: Board, date: string, fact: OpFact, newId: () => string): OwnDate {
  const before = boardOn(board, date);
  // Nothing of that day has happened yet.
  const at = instantAt({ date, time: '00:00' }, board.barn.zone);
  const op = { id: 'other-date', device: HUB_DEVICE, by: null, tappedAt: at, fact };
  const { facts, why } = decide(before, op);
  if (why) return { facts: [], why };
  const after = evolve(before, { ...op, seq: 1, at, facts: [...facts], why: null });
  const { sources } = dayFromBook(board.barn, date);
  const lessons = Object.values(after.day.lessons).filter((one) => one !== own(before.day.lessons, one.id));
  const shifts = Object.entries(after.day.hands).flatMap(([volunteer, { presence }]) =>
    own(before.day.hands, volunteer) || presence.from === null || presence.until === null
      ? []
      : onceShift(board, newId(), volunteer, date, presence.from, presence.until),
  );
  return {
    facts: [
      ...lessons.flatMap((one) => lessonFacts(board, one, date, own(sources, one.id), newId)),
      ...shifts,
    ],
    why: null,
  };
}

/** The changes that bring the book back to how `board` has it. */
export function takenBack({ barn }: Board, facts: readonly BookFact[]): BookFact[] {
  return facts.toReversed().flatMap((fact): BookFact[] => {
    const [table, id] =
      fact.kind === 'recordSaved' ? [fact.saved.table, fact.saved.record.id] : [fact.table, fact.id];
    const was = own(recordsOf(barn, table), id);
    if (was) return [{ kind: 'recordSaved', saved: { table, record: was } as TableRecord }];
    return fact.kind === 'recordSaved' ? [{ kind: 'recordRetired', table, id }] : [];
  });
}

/** The weekly lesson as it is every week again; of a lesson that has no own form for the date nothing. */
export function asEveryWeek({ barn }: Board, { planned, weekly }: Source): BookFact[] {
  const isOwn = planned !== null && weekly !== null && own(barn.book.planned, planned) !== undefined;
  return isOwn ? [{ kind: 'recordRetired', table: 'planned', id: planned }] : [];
}

/** Hours for somebody who comes for that date's lessons: from when the first horse may be taken up until the last is put away. */
export function hoursFor({ barn, day }: Board): { readonly from: number; readonly until: number } | null {
  const lessons = Object.values(day.lessons).filter((lesson) => !lesson.cancelled);
  if (lessons.length === 0) return null;
  const { warmUpMinutes, mountingMinutes, earliestMinutes, afterWithinMinutes } = barn.rules;
  const before = (warmUpMinutes + mountingMinutes + earliestMinutes) * MINUTE_MS;
  return {
    from: Math.min(...lessons.map(({ start }) => start)) - before,
    until: Math.max(...lessons.map(lessonEnd)) + Math.round(afterWithinMinutes.away) * MINUTE_MS,
  };
}

function lessonFacts(
  { barn }: Board,
  lesson: Lesson,
  date: string,
  source: Source | undefined,
  newId: () => string,
): BookFact[] {
  const planned = source?.planned ?? null;
  const weekly = source?.weekly ?? null;
  if (lesson.cancelled) {
    const gone: BookFact[] =
      planned === null ? [] : [{ kind: 'recordRetired', table: 'planned', id: planned }];
    if (!weekly) return gone;
    const known = Object.values(barn.book.exceptions).find(
      (one) => one.what !== 'closed' && one.lesson === weekly.lesson && one.date === weekly.date,
    );
    const record = { id: known?.id ?? newId(), what: 'cancelled' as const, ...weekly, why: '' };
    return [{ kind: 'recordSaved', saved: { table: 'exceptions', record } }, ...gone];
  }
  const wall = wallTimeAt(lesson.start, barn.zone);
  const known = planned === null ? undefined : own(barn.book.planned, planned);
  const isSame = known && instantAt({ date, time: known.time }, barn.zone) === lesson.start;
  const record: PlannedLesson = {
    id: planned ?? (weekly ? newId() : lesson.id),
    name: lesson.name,
    // A time left alone stays as it is written: in the hour a clock change skips, the wall says another.
    time: isSame ? known.time : wall.time,
    minutes: lesson.minutes,
    arena: lesson.arena,
    instructor: lesson.instructor,
    places: lesson.places.flatMap(({ cancelled, ...place }) => (cancelled ? [] : place)),
    date: wall.date,
    ...(weekly && { instead: weekly }),
  };
  return [{ kind: 'recordSaved', saved: { table: 'planned', record } }];
}

function onceShift(
  { barn }: Board,
  id: string,
  volunteer: string,
  date: string,
  from: number,
  until: number,
): BookFact[] {
  const [first, last] = [wallTimeAt(from, barn.zone), wallTimeAt(until, barn.zone)];
  const hours = {
    from: first.date < date ? '00:00' : first.time,
    until: last.date > date ? '23:59' : last.time,
  };
  if (hours.from >= hours.until) return [];
  const record = { id, volunteer, on: { every: 'once' as const, date }, ...hours };
  return [{ kind: 'recordSaved', saved: { table: 'shifts', record } }];
}
