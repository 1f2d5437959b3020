import { describe, expect, it } from 'vitest';
import { Book } from '#core/barn/book.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { boardOn } from '#core/day/boardOn.ts';
import { conflicts } from '#core/day/conflicts.ts';
import { dayFromBook } from '#core/day/fromBook.ts';
import { lessonFeed } from '#core/exchange/calendar/feeds.ts';
import { propose } from '#core/plan/propose/propose.ts';
import { dateAfter } from '#core/time/dates.ts';
import { demoBook } from '../../../demo/book.ts';
import { demoBoard } from '../../../demo/day.ts';

// A Tuesday, a Sunday before the clocks change in the barn's zone, and New Year's Eve.
const DATES = ['2026-05-12', '2026-10-31', '2026-12-31'];

describe.each(DATES)('the invented barn’s book around %s', (date) => {
  const { barn, day } = demoBoard(date);
  const week = Array.from({ length: 7 }, (_, days) => dateAfter(date, days));

  it('is a book as the hub takes it, the same for the same seed and another for another', () => {
    expect(Book.safeParse(JSON.parse(JSON.stringify(barn.book))).success).toBe(true);
    expect(demoBook(barn, date, 1)).toEqual(barn.book);
    expect(demoBook(barn, date, 2)).not.toEqual(barn.book);
  });

  it('has the played afternoon as that date’s lessons and people', () => {
    const { lessons, people, missing } = dayFromBook(barn, date);
    expect(Object.fromEntries(lessons.map((lesson) => [lesson.id, lesson]))).toEqual(day.lessons);
    expect(people.map(({ volunteer }) => volunteer).sort()).toEqual(Object.keys(day.hands).sort());
    expect(missing).toEqual([]);
  });

  it('teaches on four days of the week, and nothing on any of them cannot be so but what is left open', () => {
    const taught = week.filter((one) => dayFromBook(barn, one).lessons.length > 0);
    expect(taught).toHaveLength(4);
    for (const one of taught.slice(1)) {
      const there = boardOn({ ...emptyBoard(barn.name, barn.zone), barn }, one);
      const stops = conflicts(there).filter(({ level }) => level === 'stop');
      expect(stops.map(({ code }) => code)).toEqual(['no-horse']);
      expect(Object.values(there.day.lessons).flatMap(({ places }) => places).length).toBeGreaterThan(8);
      expect(propose(there).fact?.changes.length).toBeGreaterThan(0);
    }
  });

  it('rests on its holiday and outside its term, and has a calendar to subscribe to', () => {
    const [holiday] = Object.values(barn.book.exceptions);
    const on = holiday?.what === 'closed' ? holiday.from : '';
    expect(dayFromBook(barn, on)).toMatchObject({ lessons: [], people: [], closed: expect.any(String) });
    expect(dayFromBook(barn, dateAfter(on, 7)).lessons.length).toBeGreaterThan(0);
    const term = Object.values(barn.book.terms)[0];
    expect(dayFromBook(barn, dateAfter(term?.until ?? '', 2)).lessons).toEqual([]);
    expect(lessonFeed(demoBoard(date), day.lessons['l1']?.start ?? 0, false).length).toBeGreaterThan(0);
  });
});
