/** The plain answer to "would it be ready?": the change made on a copy of the board, and that board's forecast read. */
import { own } from '../../barn/basics.ts';
import type { Lesson } from '../../barn/lesson.ts';
import type { Board, PlaceRef } from '../../day/board.ts';
import { evolve } from '../../day/evolve.ts';
import { lessonEnd, lessonsOf } from '../../day/preps.ts';
import { forecast } from '../forecast.ts';
import { planInput } from '../input.ts';
import type { Readiness, ReadyChance, StandInsTaken } from './model.ts';
import { tackFor } from './pair.ts';
import { overlap, refOf, seatsOf, seatKey, type Seat } from './seats.ts';
import { giveOut, prepOf } from './work.ts';

/** Readiness of each prep of a board towards its ramp time. A prep it does not name cannot be said. */
export type Foresee = (board: Board, now: number) => ReadonlyMap<string, Readiness>;

const UNKNOWN: Readiness = { ready: null, chance: null, spareMs: null };

/** From the stages still to do and who is free for them. It knows no spread, so it gives no chance. */
export const foreseeByQueues: Foresee = (board, now) =>
  new Map(
    Object.values(forecast(planInput(board, now)).preps).map(({ prep, ready, spareMs }) => [
      prep,
      { ready, chance: null, spareMs },
    ]),
  );

/** The board after `taken`, as the hub would make it at `now`. */
export function boardAfter(board: Board, now: number, taken: StandInsTaken): Board {
  return evolve(board, {
    seq: 1,
    at: now,
    id: 'trial',
    device: 'trial',
    by: null,
    tappedAt: now,
    facts: [taken],
    why: null,
  });
}

/**
 * Readiness by trying changes on a copy of `board`. For a change alone the horse is taken out of lessons it would have
 * to leave, and, where it would be late so, out of everything else still to come: the better of the two counts, for a
 * chain may free it. The option as a whole is tried as it is.
 */
export function readinessByTrial(board: Board, now: number, foresee: Foresee = foreseeByQueues): ReadyChance {
  type Tried = { readonly board: Board; readonly readiness: ReadonlyMap<string, Readiness> };
  const tried = new WeakMap<StandInsTaken, Tried>();
  const look = (next: Board): Tried => ({ board: next, readiness: foresee(next, now) });
  let asItIs: Tried | null = null;
  const seats = seatsOf(board, now, [], () => []);

  const alone = (horse: string, seat: Seat): Readiness => {
    const record = own(board.barn.horses, horse);
    const tack = record ? (tackFor(board, seat, record)?.id ?? null) : null;
    const others = (seats.kept.get(horse) ?? []).filter((one) => one.movable && one.key !== seat.key);
    const attempt = (freed: readonly Seat[]): Readiness => {
      const changes = [
        ...freed.map((one) => ({ ...refOf(one), horse: null, tack: null })),
        { ...refOf(seat), horse, tack },
      ];
      const placed = boardAfter(board, now, { kind: 'standInsTaken', changes, work: [] });
      const work = giveOut(board, placed, now, [refOf(seat)]).tasks.map(({ lesson, place, to }) => ({
        lesson,
        place,
        to,
      }));
      const done = boardAfter(board, now, { kind: 'standInsTaken', changes, work });
      return read(look(done), refOf(seat));
    };
    const leaving = others.filter((one) => overlap(one.lesson, seat.lesson));
    const first = attempt(leaving);
    if (first.spareMs !== null && first.spareMs >= 0) return first;
    return others.length > leaving.length ? sooner(first, attempt(others)) : first;
  };

  return (horse, place, taken) => {
    if (taken) {
      const known = tried.get(taken) ?? look(boardAfter(board, now, taken));
      tried.set(taken, known);
      return read(known, place);
    }
    const seat = seats.byKey.get(seatKey(place));
    if (!seat) return UNKNOWN;
    if (seat.place.horse !== horse) return alone(horse, seat);
    asItIs ??= look(board);
    return read(asItIs, place);
  };

  function read(known: Tried, ref: PlaceRef): Readiness {
    const prep = prepOf(known.board, ref);
    const readiness = prep && known.readiness.get(prep.id);
    const lesson = own(known.board.day.lessons, ref.lesson);
    if (!prep || !readiness || !lesson) return UNKNOWN;
    const first = prep.places[0];
    return first && first.lesson !== ref.lesson
      ? fromLessonBefore(readiness, lessonsOf(known.board.day, prep), lesson)
      : readiness;
  }
}

/** A later lesson on the same prep: the horse comes from the one before, and is there when that is over. */
function fromLessonBefore(readiness: Readiness, lessons: readonly Lesson[], lesson: Lesson): Readiness {
  if (readiness.ready === null) return readiness;
  const ends = lessons.filter((one) => one.start < lesson.start).map(lessonEnd);
  const ready = Math.max(readiness.ready, ...ends);
  return { ...readiness, ready, spareMs: lesson.start - ready };
}

function sooner(a: Readiness, b: Readiness): Readiness {
  if (a.spareMs === null) return b;
  return b.spareMs !== null && b.spareMs > a.spareMs ? b : a;
}
