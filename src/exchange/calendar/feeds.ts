/**
 * What a calendar address shows: the barn's lessons, or one person's shifts and roles. Whoever has the address reads it, so
 * riders' names are in it only where the coordinator has chosen so, and of volunteers no more than first names.
 */
import type { Barn } from '../../barn/barn.ts';
import { own } from '../../barn/basics.ts';
import type { Lesson, Place } from '../../barn/lesson.ts';
import type { Board } from '../../day/board.ts';
import { dayFromBook } from '../../day/fromBook.ts';
import { lessonEnd } from '../../day/preps.ts';
import { dateAfter } from '../../time/dates.ts';
import { wallTimeAt } from '../../time/zone.ts';
import type { FeedEvent } from './write.ts';

/** Words a feed says, in the barn's own language. */
export type FeedWords = {
  readonly leading: (horse: string, lesson: string) => string;
  readonly sideWalking: (horse: string, lesson: string) => string;
  readonly shift: string;
};

/** How far ahead a feed reaches. Common practice, no source. */
export const FEED_DAYS = 28;

type Dated = { readonly date: string; readonly lessons: readonly Lesson[] };

/** The barn's lessons from today on. `now` in ms. `withRiders`: with the riders' names. */
export function lessonFeed(board: Board, now: number, withRiders: boolean): FeedEvent[] {
  const { barn } = board;
  return comingDays(board, now).flatMap(({ date, lessons }) =>
    lessons.map((lesson): FeedEvent => {
      const { places } = lesson;
      const lines = places
        .filter((place) => !place.cancelled)
        .map((place) => placeLine(place, barn, withRiders));
      const instructor = own(barn.staff, lesson.instructor ?? '')?.name;
      const taught = instructor === undefined ? [] : [`Instructor: ${firstName(instructor)}`];
      return {
        ...whenAndWhere(lesson, date, barn),
        summary: lesson.name,
        description: [...taught, ...lines.filter((line) => line !== '')].join('\n'),
      };
    }),
  );
}

/** One volunteer's shifts and what they do in lessons. */
export function personFeed(board: Board, person: string, now: number, words: FeedWords): FeedEvent[] {
  const { barn } = board;
  const days = comingDays(board, now);
  const roles = days.flatMap(({ date, lessons }) =>
    lessons.flatMap((lesson) =>
      lesson.places.flatMap((place): FeedEvent[] => {
        const leads = place.leader === person;
        if (place.cancelled || (!leads && !place.sideWalkers.includes(person))) return [];
        const horse = own(barn.horses, place.horse ?? '')?.name ?? '';
        const event = whenAndWhere(lesson, date, barn);
        const summary = leads ? words.leading(horse, lesson.name) : words.sideWalking(horse, lesson.name);
        return [{ ...event, uid: `${place.id}.${event.uid}`, summary, description: '' }];
      }),
    ),
  );
  const shifts = days.flatMap(({ date }) =>
    expected(board, person, date).map(({ from, until }): FeedEvent => ({
      uid: `shift-${person}-${date}@aisle-board.invalid`,
      start: from,
      end: until,
      summary: words.shift,
      location: barn.name,
      description: '',
      category: 'SHIFT',
      isCancelled: false,
    })),
  );
  return [...shifts, ...roles].sort((a, b) => a.start - b.start);
}

/** As somebody is called who is read out to strangers. */
export function firstName(name: string): string {
  return name.trim().split(/\s+/)[0] ?? name;
}

/** Today as it is on the board, then what the book says. */
function comingDays({ barn, day }: Board, now: number): Dated[] {
  const today = wallTimeAt(now, barn.zone).date;
  return Array.from({ length: FEED_DAYS }, (_, i) => {
    const date = dateAfter(today, i);
    return {
      date,
      lessons: date === day.date ? Object.values(day.lessons) : dayFromBook(barn, date).lessons,
    };
  });
}

type Stay = { readonly from: number; readonly until: number };

function expected({ barn, day }: Board, person: string, date: string): Stay[] {
  const stay = (one: { from: number | null; until: number | null } | undefined): Stay[] =>
    one && one.from !== null && one.until !== null ? [{ from: one.from, until: one.until }] : [];
  if (date === day.date) return stay(own(day.hands, person)?.presence);
  return stay(dayFromBook(barn, date).people.find(({ volunteer }) => volunteer === person));
}

function whenAndWhere(lesson: Lesson, date: string, barn: Barn): Omit<FeedEvent, 'summary' | 'description'> {
  return {
    // A weekly lesson has one id for all its dates. `.invalid` is nobody's (RFC 2606 §2).
    uid: `${lesson.id}-${date}@aisle-board.invalid`,
    start: lesson.start,
    end: lessonEnd(lesson),
    location: own(barn.arenas, lesson.arena ?? '')?.name ?? '',
    category: 'LESSON',
    isCancelled: lesson.cancelled,
  };
}

/** As `details.ts` reads it again. */
function placeLine(place: Place, barn: Barn, withRiders: boolean): string {
  const person = (id: string | null): string | undefined => {
    const name = own(barn.volunteers, id ?? '')?.name;
    return name === undefined ? undefined : firstName(name);
  };
  const walkers = place.sideWalkers.flatMap((id) => person(id) ?? []);
  const parts: readonly (readonly [string, string | undefined])[] = [
    ['Rider', withRiders ? own(barn.riders, place.rider ?? '')?.callName : undefined],
    ['Horse', own(barn.horses, place.horse ?? '')?.name],
    ['Leader', person(place.leader)],
    ['Side-walkers', walkers.length > 0 ? walkers.join(', ') : undefined],
  ];
  return parts.flatMap(([title, text]) => (text === undefined ? [] : `${title}: ${text}`)).join('; ');
}
