/** What cannot be as the day's lessons stand, and what to look at: one horse twice, nobody cleared, too much work. */
import { own } from '../barn/basics.ts';
import type { Horse } from '../barn/horse.ts';
import type { Lesson, Place } from '../barn/lesson.ts';
import type { WorkloadOver } from '../care/workload.ts';
import type { Block } from '../plan/standIns/model.ts';
import { judgePair } from '../plan/standIns/pair.ts';
import { judgeDay, overlap, seatsOf, type Seat, type Seats } from '../plan/standIns/seats.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Board } from './board.ts';
import { againstAlong, type AlongBlock } from './goAlong.ts';
import { lessonEnd } from './preps.ts';
import { peopleOf, wantedOf, type RoleName } from './roles.ts';

/** `place` null: it is about the lesson. */
type At = { readonly lesson: string; readonly place: string | null };

export type Conflict = At & {
  /** `stop`: it cannot be so. `look`: a person should look at it. */
  readonly level: 'stop' | 'look';
} & (
    | { readonly code: 'no-horse' }
    | { readonly code: 'no-tack-chosen'; readonly horse: string }
    /** What speaks against this rider on this horse in this tack. */
    | { readonly code: 'pair'; readonly horse: string; readonly block: Block }
    | { readonly code: 'workload'; readonly horse: string; readonly over: WorkloadOver }
    | { readonly code: 'horse-twice'; readonly horse: string; readonly other: string }
    /** Whole minutes there are, and are needed, between the end of `other` and this lesson. */
    | {
        readonly code: 'too-little-between';
        readonly horse: string;
        readonly other: string;
        readonly minutes: number;
        readonly needed: number;
      }
    | { readonly code: 'rider-twice'; readonly rider: string; readonly other: string }
    | { readonly code: 'arena-twice'; readonly arena: string; readonly other: string }
    | { readonly code: 'instructor-twice'; readonly person: string; readonly other: string }
    | { readonly code: 'no-instructor' }
    | {
        readonly code: 'along';
        readonly person: string;
        readonly role: RoleName;
        readonly block: AlongBlock;
      }
    /** How many people the role still asks for, and how many could take it as the day stands. */
    | { readonly code: 'open-role'; readonly role: RoleName; readonly open: number; readonly free: number }
  );

/** Everything that speaks against the day's lessons as they stand, by lesson, the worst of each first. */
export function conflicts(board: Board): Conflict[] {
  // Nothing is done yet, as far as this question goes: the whole day counts as planned.
  const seats = seatsOf(board, 0, []);
  const lessons = [...new Map(seats.all.map((seat) => [seat.lesson.id, seat.lesson])).values()];
  const found = [
    ...lessons.flatMap((lesson) => ofLesson(lesson, lessons)),
    ...seats.all.flatMap((seat) => [
      ...ofHorse(seats, seat),
      ...ofRider(seats, seat),
      ...ofPeople(board, seat),
    ]),
    ...[...seats.kept.keys()].flatMap((horse) => ofHorsesDay(seats, horse)),
  ];
  const start = new Map(lessons.map((lesson, i) => [lesson.id, i]));
  const order = (one: Conflict): number => start.get(one.lesson) ?? 0;
  return found.sort((a, b) => order(a) - order(b) || Number(a.level === 'look') - Number(b.level === 'look'));
}

function ofLesson(lesson: Lesson, all: readonly Lesson[]): Conflict[] {
  const at = { lesson: lesson.id, place: null };
  // Each pair once, at the later lesson.
  const earlier = all.slice(0, all.indexOf(lesson)).filter((other) => overlap(lesson, other));
  const found: Conflict[] = [];
  if (lesson.instructor === null) found.push({ ...at, level: 'look', code: 'no-instructor' });
  for (const other of earlier) {
    if (lesson.arena !== null && lesson.arena === other.arena)
      found.push({ ...at, level: 'look', code: 'arena-twice', arena: lesson.arena, other: other.id });
    if (lesson.instructor !== null && lesson.instructor === other.instructor)
      found.push({
        ...at,
        level: 'stop',
        code: 'instructor-twice',
        person: lesson.instructor,
        other: other.id,
      });
  }
  return found;
}

function ofHorse(seats: Seats, seat: Seat): Conflict[] {
  const at = { lesson: seat.lesson.id, place: seat.place.id };
  const horse = own(seats.board.barn.horses, seat.place.horse ?? '');
  if (!horse) return [{ ...at, level: 'stop', code: 'no-horse' }];
  const found: Conflict[] = judgePair(seats, seat, horse).blocks.map((block) => ({
    ...at,
    level: block.code === 'ask-instructor' || block.code === 'no-tack' ? 'look' : 'stop',
    code: 'pair',
    horse: horse.id,
    block,
  }));
  if (horse.tackLists.length > 0 && !horse.tackLists.some((list) => list.id === seat.place.tack)) {
    found.push({ ...at, level: 'look', code: 'no-tack-chosen', horse: horse.id });
  }
  const [before] = earlierWith(seats, seat, horse.id);
  if (!before) return found;
  if (overlap(before.lesson, seat.lesson)) {
    const other = before.lesson.id;
    return [...found, { ...at, level: 'stop', code: 'horse-twice', horse: horse.id, other }];
  }
  const minutes = Math.floor((seat.lesson.start - lessonEnd(before.lesson)) / MINUTE_MS);
  const needed = minutesBetween(seats.board, before, seat);
  if (minutes < needed.wished) {
    const other = before.lesson.id;
    found.push({
      ...at,
      level: minutes < needed.least ? 'stop' : 'look',
      code: 'too-little-between',
      horse: horse.id,
      other,
      minutes,
      needed: needed.wished,
    });
  }
  return found;
}

/** The horse's seats before this one in the day's order, the one that ends last first. */
function earlierWith(seats: Seats, seat: Seat, horse: string): Seat[] {
  return seats.all
    .slice(0, seats.all.indexOf(seat))
    .filter((one) => one.place.horse === horse)
    .sort((a, b) => lessonEnd(b.lesson) - lessonEnd(a.lesson));
}

/**
 * Whole minutes a horse needs from the end of one lesson to the start of the next: at the least, as its preparations are
 * planned, and with the rest the barn's rules give it.
 */
export function minutesBetween(
  { barn }: Board,
  before: Seat,
  next: Seat,
): { readonly least: number; readonly wished: number } {
  const { rules } = barn;
  const { feet, coat, tack } = rules.stageMinutes;
  const gap = (next.lesson.start - lessonEnd(before.lesson)) / MINUTE_MS;
  if (gap > rules.sharedPrepGapMinutes) {
    const least = Math.ceil(feet + coat + tack) + rules.warmUpMinutes + rules.mountingMinutes;
    return { least, wished: least };
  }
  const work = before.place.tack === next.place.tack ? rules.girthMinutes : Math.ceil(tack);
  const least = work + rules.mountingMinutes;
  return { least, wished: Math.max(least, rules.restMinutes) };
}

function ofRider(seats: Seats, seat: Seat): Conflict[] {
  const { rider } = seat.place;
  if (rider === null) return [];
  const other = seats.all
    .slice(0, seats.all.indexOf(seat))
    .find((one) => one.place.rider === rider && overlap(one.lesson, seat.lesson));
  if (!other) return [];
  const at = { lesson: seat.lesson.id, place: seat.place.id };
  return [{ ...at, level: 'stop', code: 'rider-twice', rider, other: other.lesson.id }];
}

function ofPeople(board: Board, { lesson, place }: Seat): Conflict[] {
  const at = { lesson: lesson.id, place: place.id };
  const found = peopleOf(place).flatMap((person, i): Conflict[] => {
    const known = own(board.barn.volunteers, person);
    if (!known) return [];
    const role = i === 0 && place.leader !== null ? 'leader' : 'sideWalker';
    return againstAlong(board, known, role, lesson, true).map((block) => ({
      ...at,
      level: block.code === 'not-expected' || block.code === 'other-hours' ? 'look' : 'stop',
      code: 'along',
      person,
      role,
      block,
    }));
  });
  return [
    ...found,
    ...openRolesOf(place).flatMap(({ role, open }) => ofOpenRole(board, lesson, place, role, open)),
  ];
}

function ofOpenRole(board: Board, lesson: Lesson, place: Place, role: RoleName, open: number): Conflict[] {
  const free = Object.values(board.barn.volunteers).filter(
    (one) => againstAlong(board, one, role, lesson, false).length === 0,
  ).length;
  const level = free < open ? 'stop' : 'look';
  return [{ lesson: lesson.id, place: place.id, level, code: 'open-role', role, open, free }];
}

/** Roles of a place that ask for more people than they have. */
export function openRolesOf(place: Place): { readonly role: RoleName; readonly open: number }[] {
  const wanted = wantedOf(place);
  const leader = wanted.leader && place.leader === null ? [{ role: 'leader' as const, open: 1 }] : [];
  const open = wanted.sideWalkers - place.sideWalkers.length;
  return open > 0 ? [...leader, { role: 'sideWalker', open }] : leader;
}

/** Over the barn's rules of work: said once, at the horse's last place of the day. */
function ofHorsesDay(seats: Seats, horse: Horse['id']): Conflict[] {
  const its = seats.kept.get(horse) ?? [];
  const last = its.at(-1);
  if (!last) return [];
  const verdict = judgeDay(
    seats,
    horse,
    its.map((seat) => seat.lesson),
  );
  if (verdict.kind !== 'does-not-fit') return [];
  const at = { lesson: last.lesson.id, place: last.place.id };
  return verdict.over.map((over) => ({ ...at, level: 'stop', code: 'workload', horse, over }));
}
