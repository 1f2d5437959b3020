/** The rules of stand-ins written a second time, from the barn's rules and not from the code under test. */
import type { Horse } from '#core/barn/horse.ts';
import type { Lesson, Place } from '#core/barn/lesson.ts';
import type { Board, PlaceRef } from '#core/day/board.ts';
import type { ReadyChance } from '#core/plan/standIns/model.ts';
import { MINUTE_MS } from '#core/time/units.ts';

/** The horse of every live place, by `lesson/place`. */
export type Plan = ReadonlyMap<string, string | null>;

export const keyOf = ({ lesson, place }: PlaceRef): string => `${lesson}/${place}`;

type Spot = { readonly lesson: Lesson; readonly place: Place; readonly key: string };

export function spots(board: Board): Spot[] {
  return Object.values(board.day.lessons)
    .filter((lesson) => !lesson.cancelled)
    .flatMap((lesson) =>
      lesson.places
        .filter((place) => !place.cancelled)
        .map((place) => ({ lesson, place, key: `${lesson.id}/${place.id}` })),
    );
}

export function planOf(board: Board): Map<string, string | null> {
  return new Map(spots(board).map(({ key, place }) => [key, place.horse]));
}

const endOf = (lesson: Lesson): number => lesson.start + lesson.minutes * MINUTE_MS;
const atOnce = (a: Lesson, b: Lesson): boolean =>
  a.id === b.id || Math.max(a.start, b.start) < Math.min(endOf(a), endOf(b));

/** What is wrong with `plan` for the horses that come in somewhere; empty: nothing. */
export function faults(board: Board, plan: Plan, readyChance: ReadyChance): string[] {
  const all = spots(board);
  const before = planOf(board);
  const wrong: string[] = [];
  const comesIn = new Set<string>();
  for (const { lesson, place, key } of all) {
    const id = plan.get(key) ?? null;
    if (id === null || id === before.get(key)) continue;
    comesIn.add(id);
    const horse = board.barn.horses[id];
    if (!horse) return [`${id} is no horse`];
    wrong.push(...pairFaults(board, horse, lesson, place));
    const { spareMs } = readyChance(id, { lesson: lesson.id, place: place.id }, null);
    if (spareMs !== null && spareMs < 0) wrong.push(`${id} late for ${key}`);
  }
  for (const id of comesIn) {
    const mine = all.filter(({ key }) => plan.get(key) === id).map(({ lesson }) => lesson);
    const moved = all
      .filter(({ key }) => plan.get(key) === id && before.get(key) !== id)
      .map((one) => one.lesson);
    for (const lesson of moved) {
      if (mine.filter((other) => atOnce(lesson, other)).length > 1) wrong.push(`${id} twice at ${lesson.id}`);
    }
    wrong.push(...dayFaults(board, id, mine));
  }
  return wrong;
}

function pairFaults(board: Board, horse: Horse, lesson: Lesson, place: Place): string[] {
  const wrong: string[] = [];
  if (horse.holds.length > 0) wrong.push(`${horse.id} held`);
  // The table of findings: a lost shoe keeps a horse off; with a stone that stays in it waits for the instructor.
  for (const note of board.findings.filter((one) => one.horse === horse.id && !one.settled)) {
    if (note.finding.kind === 'shoe-lost') wrong.push(`${horse.id} has lost a shoe`);
    if (note.finding.kind === 'stone') {
      const open = board.findings.filter((one) => one.horse === horse.id && !one.settled);
      if (open.some((one) => one.read.length === 0)) wrong.push(`${horse.id}: finding unread`);
    }
  }
  const present = board.barn.horses[place.horse ?? ''];
  const wanted = present?.tackLists.find((list) => list.id === place.tack)?.name;
  const tack = horse.tackLists.find((list) => list.name === wanted) ?? horse.tackLists[0];
  if (!tack) return [...wrong, `${horse.id} has no tack`];
  const rider = place.rider === null ? null : board.barn.riders[place.rider]?.private;
  if (!rider) return wrong;
  if (rider.notWithHorses.includes(horse.id)) wrong.push(`${place.rider} not with ${horse.id}`);
  const weight = horse.private?.weight ?? null;
  if (rider.weightKg === null || weight === null) {
    if (!rider.approvedHorses.includes(horse.id)) wrong.push(`weight unknown: ${place.rider} on ${horse.id}`);
    return wrong;
  }
  // 20 % of the horse's weight, tack included; 10 % on top for an unbalanced rider; 6.35 or 9.5 kg for tack not weighed.
  const tackKg = tack.kg ?? (horse.private?.pony === true ? 6.35 : 9.5);
  const load = rider.weightKg * (rider.balanced ? 1 : 1.1) + tackKg;
  if (load > 0.2 * weight.kg + 1e-6) wrong.push(`${place.rider} too heavy for ${horse.id} in ${lesson.id}`);
  return wrong;
}

/** Minutes counted one by one: in a lesson, or waiting in the same arena for one within 30 min. */
function dayFaults(board: Board, id: string, lessons: readonly Lesson[]): string[] {
  const limits = board.barn.rules.care.workload;
  const unique = new Map(lessons.map((lesson) => [lesson.id, lesson]));
  const worked = new Set<number>();
  for (const lesson of unique.values()) {
    let until = endOf(lesson);
    for (const next of unique.values()) {
      const gap = next.start - endOf(lesson);
      if (next.arena === lesson.arena && gap >= 0 && gap <= 30 * MINUTE_MS)
        until = Math.max(until, next.start);
    }
    for (let at = lesson.start; at < until; at += MINUTE_MS) worked.add(at / MINUTE_MS);
  }
  const wrong: string[] = [];
  if (worked.size > limits.minutesPerDay) wrong.push(`${id} works ${worked.size} min`);
  if (limits.lessonsPerDay !== null && unique.size > limits.lessonsPerDay)
    wrong.push(`${id}: ${unique.size} lessons`);
  return wrong;
}
