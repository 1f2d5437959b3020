/** A date of the barn's book: terms, exceptions, single lessons, shifts; and its copy in the day. */
import { describe, expect, test } from 'vitest';
import { emptyBarn, type Barn } from '#core/barn/barn.ts';
import { Book, type BookException, type PatternLesson } from '#core/barn/book.ts';
import { dayFromBook, planOf } from '#core/day/fromBook.ts';
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { isUnused } from '#core/day/emptyDay.ts';
import type { Fact } from '#core/day/ops.ts';
import { dayToOpen } from '../../../hub/today.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { entry, NOON } from '../../properties/day-arbitraries.ts';

/** A Monday. */
const MONDAY = '2026-05-11';
const NEXT_MONDAY = '2026-05-18';

const lesson = (id: string, more: Partial<PatternLesson> = {}): PatternLesson => ({
  id,
  name: id,
  weekday: 1,
  time: '16:00',
  minutes: 45,
  arena: null,
  instructor: null,
  places: [],
  term: null,
  ...more,
});

function barnOf(book: Partial<Book>): Barn {
  const barn = emptyBarn('Test', 'America/Denver');
  return {
    ...barn,
    volunteers: { ada: { id: 'ada', name: 'Ada', clearances: ['lead'] } },
    book: Book.parse({ ...barn.book, ...book }),
  };
}

const names = (barn: Barn, date: string): string[] => dayFromBook(barn, date).lessons.map(({ id }) => id);
const moved = (toDate: string): BookException => ({
  id: 'x',
  what: 'moved',
  lesson: 'a',
  date: MONDAY,
  toDate,
  toTime: '09:00',
  why: 'arena floor',
});

describe('which lessons', () => {
  test('those of the weekday, by time, and what is planned for the date', () => {
    const planned = { ...lesson('p', { time: '10:00' }), date: MONDAY };
    const barn = barnOf({
      pattern: { a: lesson('a'), b: lesson('b', { time: '09:30' }), c: lesson('c', { weekday: 2 }) },
      planned: { p: planned },
    });
    expect(names(barn, MONDAY)).toEqual(['b', 'p', 'a']);
    expect(names(barn, '2026-05-12')).toEqual(['c']);
  });

  test('in a term from its first to its last date', () => {
    const barn = barnOf({
      pattern: { a: lesson('a', { term: 't' }) },
      terms: { t: { id: 't', name: 'Spring', from: MONDAY, until: NEXT_MONDAY } },
    });
    const mondays = ['2026-05-04', MONDAY, NEXT_MONDAY, '2026-05-25'];
    expect(mondays.map((date) => names(barn, date).length)).toEqual([0, 1, 1, 0]);
  });

  test('on a closed date only what is planned for that very date', () => {
    const barn = barnOf({
      pattern: { a: lesson('a') },
      planned: { p: { ...lesson('p'), date: MONDAY } },
      exceptions: { x: { id: 'x', what: 'closed', from: '2026-05-10', until: MONDAY, why: 'holiday' } },
    });
    expect(dayFromBook(barn, MONDAY)).toMatchObject({ closed: 'holiday', lessons: [{ id: 'p' }] });
    expect(names(barn, NEXT_MONDAY)).toEqual(['a']);
  });

  test('one moved to another date, to another time, or to a date it falls on anyway', () => {
    const at = (date: string, toDate: string): string[] =>
      dayFromBook(
        barnOf({ pattern: { a: lesson('a') }, exceptions: { x: moved(toDate) } }),
        date,
      ).lessons.map(({ id, start }) => `${id} ${new Date(start).toISOString().slice(5, 16)}`);
    expect(at(MONDAY, '2026-05-12')).toEqual([]);
    expect(at('2026-05-12', '2026-05-12')).toEqual(['a 05-12T15:00']);
    expect(at(MONDAY, MONDAY)).toEqual(['a 05-11T15:00']);
    expect(at(NEXT_MONDAY, NEXT_MONDAY)).toEqual(['a-20260518 05-18T15:00', 'a 05-18T22:00']);
  });

  test('at a month’s and a leap year’s end', () => {
    const barn = barnOf({ pattern: { a: lesson('a', { weekday: 4 }), b: lesson('b', { weekday: 2 }) } });
    // 29 February 2024 was a Thursday; 28 February 2023 and 31 March 2026 Tuesdays (any calendar).
    expect(names(barn, '2024-02-29')).toEqual(['a']);
    expect(names(barn, '2023-02-28')).toEqual(['b']);
    expect(names(barn, '2026-03-31')).toEqual(['b']);
    expect(() => dayFromBook(barn, '2023-02-29')).toThrow(RangeError);
  });

  test('what the barn keeps no more is left out and named', () => {
    const place = { id: 'p', rider: 'gone', horse: 'gone', tack: 't', leader: 'ada', sideWalkers: ['gone'] };
    const { lessons, missing } = dayFromBook(
      barnOf({ pattern: { a: lesson('a', { arena: 'gone', places: [place] }) } }),
      MONDAY,
    );
    expect(lessons[0]?.places[0]).toMatchObject({
      rider: null,
      horse: null,
      tack: null,
      leader: 'ada',
      sideWalkers: [],
    });
    expect(missing.map(({ what }) => what).toSorted()).toEqual(['arena', 'horse', 'rider', 'sideWalker']);
  });
});

test('a person is expected from the first shift to the end of the last; weekly ones not when closed', () => {
  const week = { every: 'week', weekday: 1, term: null } as const;
  const book = {
    shifts: {
      s1: { id: 's1', volunteer: 'ada', on: week, from: '15:00', until: '17:00' },
      s2: {
        id: 's2',
        volunteer: 'ada',
        on: { every: 'once', date: MONDAY } as const,
        from: '18:00',
        until: '19:30',
      },
    },
  };
  const hours = (barn: Barn): string[] =>
    dayFromBook(barn, MONDAY).people.map(({ from, until }) =>
      [from, until].map((at) => new Date(at ?? 0).toISOString().slice(11, 16)).join('–'),
    );
  expect(hours(barnOf(book))).toEqual(['21:00–01:30']);
  const closed = { x: { id: 'x', what: 'closed', from: MONDAY, until: MONDAY, why: '' } as const };
  expect(hours(barnOf({ ...book, exceptions: closed }))).toEqual(['00:00–01:30']);
});

describe('copied into the day', () => {
  const play = (board: Board, ...facts: Fact[]): Board =>
    facts.reduce((next, fact, i) => evolve(next, entry(i + 1, fact)), board);
  const opened = (): Board => {
    const board = emptyBoard('Test', 'America/Denver');
    const shift = {
      id: 's',
      volunteer: 'ada',
      on: { every: 'once', date: MONDAY } as const,
      from: '15:00',
      until: '17:00',
    };
    return play(
      { ...board, barn: barnOf({ pattern: { a: lesson('a') }, shifts: { s: shift } }) },
      { kind: 'dayOpened', date: MONDAY },
    );
  };

  test('it is the day’s own: the pattern changes without it, and taken again it stays', () => {
    const board = opened();
    const taken = play(board, planOf(board.barn, MONDAY));
    expect(Object.keys(taken.day.lessons)).toEqual(['a']);
    expect(taken.day.hands['ada']?.presence).toMatchObject({ state: 'expected' });
    const cancelled = play(taken, { kind: 'lessonCancelled', lesson: 'a' });
    const edited = play(cancelled, {
      kind: 'recordSaved',
      saved: { table: 'pattern', record: lesson('a', { time: '17:00' }) },
    });
    expect(edited.day).toBe(cancelled.day);
    const again = play(edited, planOf(edited.barn, MONDAY));
    expect(again.day.lessons).toEqual(cancelled.day.lessons);
  });

  test('one undo takes it back', () => {
    const board = opened();
    const taken = play(board, planOf(board.barn, MONDAY));
    const back = play(taken, { kind: 'undone', op: taken.day.planTaken ?? '' });
    expect([back.day.lessons, back.day.hands, back.day.planTaken]).toEqual([{}, {}, null]);
  });

  test('not on another date', () => {
    const op = { id: 'o', device: 'd', by: null, tappedAt: NOON, fact: planOf(opened().barn, NEXT_MONDAY) };
    expect(decide(opened(), op).why).toEqual({ code: 'dayOver' });
  });

  test('a hub whose clock was ahead may still go back from a day that only the book filled', () => {
    const board = opened();
    const taken = play(board, planOf(board.barn, MONDAY));
    const before = NOON - 3 * 86_400_000;
    expect(isUnused(taken.day)).toBe(true);
    expect(dayToOpen(taken, before)).toEqual({ kind: 'dayOpened', date: '2026-05-08' });
    const used = evolve(taken, entry(50, { kind: 'volunteerArrived', volunteer: 'ada' }));
    expect(dayToOpen(used, before)).toBeNull();
  });
});

test('usual hours hold for somebody of whom the book has no shift, and not where the barn is closed', () => {
  // Mondays 9:00 to 12:30: 540 and 750 min after midnight.
  const barn = barnOf({});
  const usual = (more: Partial<Book> = {}): Barn => ({
    ...barnOf(more),
    volunteers: {
      ada: {
        id: 'ada',
        name: 'Ada',
        clearances: ['lead'],
        private: { pace: 1, usualHours: [{ weekday: 1, from: 540, until: 750 }] },
      },
    },
  });
  const hours = (of: Barn, date: string): string[] =>
    dayFromBook(of, date).people.map(({ volunteer, from, until }) =>
      [volunteer, ...[from, until].map((at) => (at === null ? '' : wallTimeAt(at, barn.zone).time))].join(
        ' ',
      ),
    );
  expect(hours(usual(), MONDAY)).toEqual(['ada 09:00 12:30']);
  expect(hours(usual(), '2026-05-12')).toEqual([]);
  const closed = { x: { id: 'x', what: 'closed' as const, from: MONDAY, until: MONDAY, why: '' } };
  expect(hours(usual({ exceptions: closed }), MONDAY)).toEqual([]);
  const shifts = {
    s: {
      id: 's',
      volunteer: 'ada',
      on: { every: 'week' as const, weekday: 2, term: null },
      from: '14:00',
      until: '15:00',
    },
  };
  expect(hours(usual({ shifts }), MONDAY)).toEqual([]);
});
