/** Small steps into the board's state. Each returns the same reference when its change changes nothing. */
import { own, put } from '../barn/basics.ts';
import type { Hold } from '../barn/horse.ts';
import type { Lesson } from '../barn/lesson.ts';
import type { Board, Day, Hands, Prep, Presence } from './board.ts';
import { regroup } from './regroup.ts';
import type { Entry } from './ops.ts';

/** What of an entry a fact needs to know besides itself. */
export type Stamp = Pick<Entry, 'id' | 'device' | 'by' | 'at' | 'tappedAt'>;

export function withDay(board: Board, change: (day: Day) => Day): Board {
  const day = change(board.day);
  return day === board.day ? board : { ...board, day };
}

export function withPrep(board: Board, id: string, change: (prep: Prep) => Prep): Board {
  return withDay(board, (day) => {
    const prep = own(day.preps, id);
    const next = prep && change(prep);
    return !next || next === prep ? day : { ...day, preps: put(day.preps, id, next) };
  });
}

export function withLesson(
  board: Board,
  id: string,
  change: (lesson: Lesson | undefined) => Lesson | undefined,
): Board {
  const was = own(board.day.lessons, id);
  const next = change(was);
  if (next === was || !next) return board;
  return regrouped({ ...board, day: { ...board.day, lessons: put(board.day.lessons, id, next) } });
}

export function withPlace(lesson: Lesson, id: string, change: Partial<Lesson['places'][number]>): Lesson {
  if (!lesson.places.some((place) => place.id === id)) return lesson;
  return {
    ...lesson,
    places: lesson.places.map((place) => (place.id === id ? { ...place, ...change } : place)),
  };
}

export function regrouped(board: Board): Board {
  return { ...board, day: regroup(board.day, board.barn.rules) };
}

export function withHolds(board: Board, id: string, change: (holds: Hold[]) => Hold[]): Board {
  const horse = own(board.barn.horses, id);
  if (!horse) return board;
  const horses = put(board.barn.horses, id, { ...horse, holds: change(horse.holds) });
  const next = { ...board, barn: { ...board.barn, horses } };
  // Nobody is on a horse that was just pulled.
  return withDay(next, (day) =>
    clearOnIt(day, (prep) => prep.horse === id && change(horse.holds).length > 0),
  );
}

export function withPresence(board: Board, id: string, change: (was: Presence | null) => Presence): Board {
  return withDay(board, (day) => {
    const hands = own(day.hands, id);
    const next: Hands = { presence: change(hands?.presence ?? null), queue: hands?.queue ?? [] };
    return { ...day, hands: put(day.hands, id, next) };
  });
}

export function withState(board: Board, id: string, state: Presence['state'], stamp: Stamp): Board {
  if (own(board.day.hands, id)?.presence.state === state) return board;
  return withPresence(board, id, (was) => ({
    state,
    since: stamp.at,
    from: was?.from ?? null,
    until: was?.until ?? null,
  }));
}

/** Takes the people off the preps that `which` picks. */
export function clearOnIt(day: Day, which: (prep: Prep) => boolean): Day {
  const hit = Object.values(day.preps).filter((prep) => prep.onIt && which(prep));
  if (hit.length === 0) return day;
  const preps = { ...day.preps };
  for (const prep of hit) preps[prep.id] = { ...prep, onIt: null };
  return { ...day, preps };
}
