/**
 * A date other than the open day, changed as its own: the book then says of that date what the day itself would say, and of
 * every other date what it said before. Dates of clock changes by the IANA time zone database (2026: 8 March, 1 November in
 * America/Denver).
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PatternLesson } from '#core/barn/book.ts';
import { Book } from '#core/barn/book.ts';
import { boardOn } from '#core/day/boardOn.ts';
import type { Board } from '#core/day/board.ts';
import { conflicts } from '#core/day/conflicts.ts';
import { evolve } from '#core/day/evolve.ts';
import { dayFromBook } from '#core/day/fromBook.ts';
import type { OpFact } from '#core/day/ops.ts';
import { asEveryWeek, onOtherDate, takenBack, type BookFact } from '#core/day/ownDate.ts';
import { dateAfter, weekdayOf } from '#core/time/dates.ts';
import { instantAt, wallTimeAt } from '#core/time/zone.ts';
import { entry, smallBoard } from './day-arbitraries.ts';

/** Month ends, both clock changes, a leap day, the turn of the year, and a plain date. */
const DATES = [
  '2026-05-31',
  '2026-03-08',
  '2026-11-01',
  '2028-02-29',
  '2026-12-31',
  '2027-01-01',
  '2026-06-17',
] as const;

const place = { rider: null, tack: 't1', leader: null, sideWalkers: [] };

function weekly(id: string, date: string, time: string): PatternLesson {
  return {
    id,
    name: id,
    weekday: weekdayOf(date),
    time,
    minutes: 45,
    arena: 'a1',
    instructor: 'ines',
    term: null,
    places: [{ ...place, id: 'p1', horse: 'fern' }],
  };
}

function boardWith(date: string, more: Partial<Book> = {}): Board {
  const board = smallBoard();
  const pattern = { w1: weekly('w1', date, '01:30'), w2: weekly('w2', date, '16:00') };
  const planned = { s1: { ...weekly('s1', date, '18:00'), date } };
  const book = Book.parse({ ...board.barn.book, pattern, planned, ...more });
  return { ...board, barn: { ...board.barn, book } };
}

let seq = 900;
function told(board: Board, facts: readonly BookFact[]): Board {
  return facts.reduce((next, fact) => evolve(next, entry((seq += 1), fact)), board);
}

function ids(): () => string {
  let n = 0;
  return () => `new${(n += 1)}`;
}

const lessonId = fc.constantFrom('w1', 'w2', 's1');
const change = (date: string): fc.Arbitrary<OpFact> =>
  fc.oneof(
    fc.record({
      kind: fc.constant('lessonPlanned' as const),
      lesson: lessonId,
      name: fc.constantFrom('Quiet', 'Trail'),
      start: fc
        .tuple(fc.integer({ min: 3, max: 22 }), fc.integer({ min: 0, max: 59 }))
        .map(([h, m]) =>
          instantAt(
            { date, time: `${String(h).padStart(2, '0')}:${String(m).padStart(2, '0')}` },
            'America/Denver',
          ),
        ),
      minutes: fc.integer({ min: 5, max: 90 }),
      arena: fc.constantFrom('a1', null),
      instructor: fc.constantFrom('ines', null),
    }),
    fc.record({
      kind: fc.constant('placesPlanned' as const),
      changes: lessonId.chain((lesson) =>
        fc.constantFrom('moss', 'sorrel', null).map((horse) => [
          { lesson, place: { ...place, id: 'p1', horse, tack: horse && 't1' } },
          {
            lesson,
            place: {
              ...place,
              id: 'p2',
              ...(horse === null ? { horse: 'fern' } : { horse: null, tack: null }),
            },
          },
        ]),
      ),
    }),
    lessonId.map((lesson) => ({ kind: 'lessonCancelled' as const, lesson })),
    lessonId.map((lesson) => ({ kind: 'placeCancelled' as const, lesson, place: 'p1' })),
    fc.constant<OpFact>({
      kind: 'lessonAdded',
      lesson: {
        id: 'extra',
        name: 'Extra',
        start: instantAt({ date, time: '12:00' }, 'America/Denver'),
        minutes: 30,
        arena: null,
        instructor: null,
        cancelled: false,
        places: [],
      },
    }),
  );

const asked = fc.constantFrom(...DATES).chain((date) => change(date).map((fact) => ({ date, fact })));

/** Lessons as people read them; the id of a place's row counts, whether something is cancelled does not: it is not there. */
function read(board: Board): unknown {
  return Object.values(board.day.lessons)
    .filter((lesson) => !lesson.cancelled)
    .map((lesson) => ({ ...lesson, places: lesson.places.filter((one) => !one.cancelled) }))
    .sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1));
}

describe('any change of any date', () => {
  test('is what the day itself would make of it, with the same conflicts; every other date stays', () => {
    fc.assert(
      fc.property(asked, ({ date, fact }) => {
        const board = boardWith(date);
        const made = onOtherDate(board, date, fact, ids());
        expect(made.why).toBeNull();
        const changed = told(board, made.facts);
        const asDay = evolve(boardOn(board, date), entry(1, fact));
        expect(read(boardOn(changed, date))).toEqual(read(asDay));
        const found = conflicts(boardOn(changed, date)).map(({ code, lesson }) => `${code} ${lesson}`);
        const onTheDay = conflicts(asDay).map(({ code, lesson }) => `${code} ${lesson}`);
        expect(found.toSorted()).toEqual(onTheDay.toSorted());
        for (const other of [dateAfter(date, 7), dateAfter(date, -7), dateAfter(date, 1)])
          expect(dayFromBook(changed.barn, other)).toEqual(dayFromBook(board.barn, other));
        expect(changed.barn.book.pattern).toEqual(board.barn.book.pattern);
      }),
    );
  });

  test('twice is the last of both, in one record; and it can be taken back', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...DATES).chain((date) => fc.tuple(fc.constant(date), change(date), change(date))),
        ([date, first, second]) => {
          const board = boardWith(date);
          const newId = ids();
          const once = told(board, onOtherDate(board, date, first, newId).facts);
          const then = onOtherDate(once, date, second, newId);
          // The second may be about what the first took out.
          if (then.why) return;
          const twice = told(once, then.facts);
          expect(read(boardOn(twice, date))).toEqual(read(evolve(boardOn(once, date), entry(1, second))));
          const own = Object.values(twice.barn.book.planned).filter(
            ({ instead }) => instead?.lesson === 'w1',
          );
          expect(own.length).toBeLessThanOrEqual(1);
          expect(told(twice, takenBack(once, then.facts)).barn.book).toEqual(once.barn.book);
        },
      ),
    );
  });
});

describe('by hand', () => {
  const date = '2026-06-17';
  const plan: OpFact = {
    kind: 'lessonPlanned',
    lesson: 'w2',
    name: 'w2',
    start: instantAt({ date, time: '17:15' }, 'America/Denver'),
    minutes: 30,
    arena: 'a1',
    instructor: 'ines',
  };

  test('a weekly lesson later on one date keeps its name on the day, and comes back as every week', () => {
    const board = boardWith(date);
    const changed = told(board, onOtherDate(board, date, plan, ids()).facts);
    const day = dayFromBook(changed.barn, date);
    const lesson = day.lessons.find(({ id }) => id === 'w2');
    expect(lesson && wallTimeAt(lesson.start, 'America/Denver')).toMatchObject({ date, time: '17:15' });
    const source = day.sources['w2'];
    expect(source).toEqual({ planned: 'new1', weekly: { lesson: 'w2', date } });
    if (!source) return;
    expect(told(changed, asEveryWeek(changed, source)).barn.book.planned).toEqual(board.barn.book.planned);
  });

  test('a closed week takes the date’s own form with it; what was planned singly stays', () => {
    const board = boardWith(date);
    const changed = told(board, onOtherDate(board, date, plan, ids()).facts);
    const closed = told(changed, [
      {
        kind: 'recordSaved',
        saved: {
          table: 'exceptions',
          record: { id: 'x', what: 'closed', from: '2026-06-15', until: '2026-06-19', why: '' },
        },
      },
    ]);
    expect(dayFromBook(closed.barn, date).lessons.map(({ id }) => id)).toEqual(['s1']);
  });

  test('one moved to that date from another changes there, and is gone from the date it was on', () => {
    const moved = {
      m: {
        id: 'm',
        what: 'moved' as const,
        lesson: 'w2',
        date,
        toDate: '2026-06-18',
        toTime: '10:00',
        why: '',
      },
    };
    const board = boardWith(date, { exceptions: moved });
    const shorter: OpFact = {
      ...plan,
      start: instantAt({ date: '2026-06-18', time: '10:00' }, 'America/Denver'),
      minutes: 20,
    };
    const changed = told(board, onOtherDate(board, '2026-06-18', shorter, ids()).facts);
    expect(dayFromBook(changed.barn, '2026-06-18').lessons).toMatchObject([{ id: 'w2', minutes: 20 }]);
    expect(dayFromBook(changed.barn, date).lessons.map(({ id }) => id)).toEqual(['w1', 's1']);
  });

  test('what would be refused on the day is refused', () => {
    const twice: OpFact = {
      kind: 'placesPlanned',
      changes: [{ lesson: 'w2', place: { ...place, id: 'p2', horse: 'fern' } }],
    };
    expect(onOtherDate(boardWith(date), date, twice, ids()).why).toEqual({
      code: 'horseTwice',
      horse: 'fern',
    });
  });

  test('somebody comes on that date alone', () => {
    const board = boardWith(date);
    const [from, until] = ['09:00', '12:30'].map((time) => instantAt({ date, time }, 'America/Denver'));
    const fact: OpFact = { kind: 'volunteerExpected', volunteer: 'cho', from: from ?? 0, until: until ?? 0 };
    const changed = told(board, onOtherDate(board, date, fact, ids()).facts);
    expect(Object.values(changed.barn.book.shifts)).toEqual([
      { id: 'new1', volunteer: 'cho', on: { every: 'once', date }, from: '09:00', until: '12:30' },
    ]);
    expect(boardOn(changed, date).day.hands['cho']?.presence).toMatchObject({
      state: 'expected',
      from,
      until,
    });
  });
});
