/** The day's places as seats that horses sit in: which may change, which overlap, and what a horse's day comes to. */
import { own } from '../../barn/basics.ts';
import type { Horse } from '../../barn/horse.ts';
import type { Lesson, Place } from '../../barn/lesson.ts';
import type { WorkloadVerdict } from '../../care/workload.ts';
import type { Board, PlaceRef } from '../../day/board.ts';
import { isPulled, lessonEnd, liveBookings } from '../../day/preps.ts';
import { judgeHorseDay } from '../../day/worked.ts';

/** A place of a lesson that will be ridden. */
export type Seat = {
  readonly key: string;
  readonly lesson: Lesson;
  readonly place: Place;
  /** Asks for a stand-in. */
  readonly affected: boolean;
  /** May be given another horse: affected, or still to come with a horse that can work. */
  readonly movable: boolean;
};

export type Seats = {
  readonly board: Board;
  readonly now: number;
  readonly horses: readonly Horse[];
  /** By lesson start. */
  readonly all: readonly Seat[];
  readonly byKey: ReadonlyMap<string, Seat>;
  /** Where each horse is today, affected seats left out. */
  readonly kept: ReadonlyMap<string, readonly Seat[]>;
};

export function seatKey(ref: PlaceRef): string {
  return `${ref.lesson}/${ref.place}`;
}

export function refOf(seat: Seat): PlaceRef {
  return { lesson: seat.lesson.id, place: seat.place.id };
}

/** Names in `affected` that are no place to be ridden today are left out. */
export function seatsOf(board: Board, now: number, affected: readonly PlaceRef[]): Seats {
  const asked = new Set(affected.map(seatKey));
  const all = liveBookings(board.day).map(({ lesson, place }): Seat => {
    const key = seatKey({ lesson: lesson.id, place: place.id });
    const settled = place.horse !== null && own(board.barn.horses, place.horse) !== undefined;
    const canWork = settled && !isPulled(board.barn, place.horse ?? '');
    const movable = asked.has(key) || (lesson.start > now && canWork);
    return { key, lesson, place, affected: asked.has(key), movable };
  });
  const kept = new Map<string, Seat[]>();
  for (const seat of all) {
    if (seat.affected || seat.place.horse === null) continue;
    kept.set(seat.place.horse, [...(kept.get(seat.place.horse) ?? []), seat]);
  }
  return {
    board,
    now,
    horses: Object.values(board.barn.horses),
    all,
    byKey: new Map(all.map((seat) => [seat.key, seat])),
    kept,
  };
}

/** One horse cannot be in both: the same lesson, or lessons at the same time. */
export function overlap(a: Lesson, b: Lesson): boolean {
  return a.id === b.id || (a.start < lessonEnd(b) && b.start < lessonEnd(a));
}

/** The barn's rules of work on a horse that is in these lessons today. */
export function judgeDay({ board, now }: Seats, horse: string, lessons: readonly Lesson[]): WorkloadVerdict {
  return judgeHorseDay(board, horse, lessons, now);
}

export function fitsDay(seats: Seats, horse: string, lessons: readonly Lesson[]): boolean {
  return judgeDay(seats, horse, lessons).kind === 'fits';
}

/**
 * The sets of `kept` seats, none inside another, that a horse must give up so that it can be in `must` too. One empty
 * set when nothing need be given up; none at all when giving up everything movable is not enough.
 */
export function giveUps(
  seats: Seats,
  horse: string,
  must: readonly Seat[],
  kept: readonly Seat[],
): readonly (readonly Seat[])[] {
  const free = kept.filter((seat) => seat.movable);
  const fixed = [...must, ...kept.filter((seat) => !seat.movable)].map((seat) => seat.lesson);
  if (fitsDay(seats, horse, [...fixed, ...free.map((seat) => seat.lesson)])) return [[]];
  const found: number[] = [];
  const sets = Array.from({ length: 2 ** free.length }, (_, set) => set).sort((a, b) => size(a) - size(b));
  for (const set of sets.slice(1)) {
    if (found.some((smaller) => (smaller & set) === smaller)) continue;
    const stays = free.filter((_, i) => (set & (1 << i)) === 0).map((seat) => seat.lesson);
    if (fitsDay(seats, horse, [...fixed, ...stays])) found.push(set);
  }
  return found.map((set) => free.filter((_, i) => (set & (1 << i)) !== 0));
}

function size(set: number): number {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}
