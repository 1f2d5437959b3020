/** Why a horse cannot take a place that stays without one, and what would change that: worked out, not guessed. */
import type { Horse } from '../../barn/horse.ts';
import type { Lesson } from '../../barn/lesson.ts';
import { lessonEnd, liveBookings } from '../../day/preps.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Block, Blocked, Readiness, ReadyChance, StandInsTaken } from './model.ts';
import { giveUps, judgeDay, overlap, refOf, type Seat, type Seats } from './seats.ts';
import type { Candidate, Pairings } from './search.ts';

/** The option the answer stands beside. */
export type Beside = Candidate & { readonly fact: StandInsTaken };

/** Every block on `horse` for `seat`, with the best option (null: there is none) made. There is always one. */
export function whyNot(
  seats: Seats,
  pairings: Pairings,
  readyChance: ReadyChance,
  seat: Seat,
  horse: Horse,
  beside: Beside | null,
): Blocked {
  const pairing = pairings.of(seat).get(horse.id);
  const alone = pairing?.blocks ?? [];
  const inDay = horse.holds.length > 0 ? [] : dayBlocks(seats, seat, horse, beside);
  const mayBeReady = alone.every((block) => !NEVER_PREPARED.includes(block.code));
  const ready = mayBeReady ? readyBlocks(seats, seat, pairings.readiness(seat, horse.id)) : [];
  const blocks = [...alone, ...inDay, ...ready];
  const settled =
    blocks.length > 0 ? blocks : together(seats, seat, horse, pairing?.tack?.id ?? null, readyChance, beside);
  return { ...refOf(seat), horse: horse.id, horseName: horse.name, blocks: settled };
}

/** With these the horse would not be prepared at all. */
const NEVER_PREPARED: readonly Block['code'][] = ['held', 'no-tack', 'asked-to-replace'];

function dayBlocks(seats: Seats, seat: Seat, horse: Horse, beside: Beside | null): Block[] {
  const given = (beside?.given ?? [])
    .filter((one) => one.pairing.horse.id === horse.id)
    .map((one) => one.seat);
  const changed = new Set((beside?.given ?? []).map((one) => one.seat.key));
  const kept = (seats.kept.get(horse.id) ?? []).filter((one) => !changed.has(one.key));
  const clashes = [...kept, ...given].filter((one) => overlap(one.lesson, seat.lesson));
  if (clashes.length > 0) {
    return clashes.map((one) => {
      const free = one.movable && !given.includes(one);
      const code = given.includes(one)
        ? 'stands-in'
        : one.lesson.id === seat.lesson.id
          ? 'same-lesson'
          : 'overlapping-lesson';
      return { code, ...refOf(one), unblock: free ? { do: 'freeFirst', ...refOf(one) } : null };
    });
  }
  const verdict = judgeDay(
    seats,
    horse.id,
    [...kept, ...given, seat].map((one) => one.lesson),
  );
  if (verdict.kind === 'fits') return [];
  if (verdict.kind === 'cannot-say') {
    return [{ code: 'ask-instructor', unblock: { do: 'mendRecord', figure: verdict.reason.figure } }];
  }
  const places = giveUps(seats, horse.id, [seat, ...given], kept)[0]?.map(refOf);
  return verdict.over.map((over) => ({
    code: 'workload',
    over,
    unblock: places ? { do: 'giveUp', places } : null,
  }));
}

function readyBlocks(seats: Seats, seat: Seat, { spareMs }: Readiness): Block[] {
  if (spareMs === null || spareMs >= 0) return [];
  const minutes = Math.ceil(-spareMs / MINUTE_MS);
  const { lesson } = seat;
  const clashes = clashesAfter(seats, lesson, minutes);
  return [
    {
      code: 'not-ready',
      lateMinutes: minutes,
      unblock: { do: 'delayLesson', lesson: lesson.id, minutes, clashes },
    },
  ];
}

/** Lessons that share something with this one and, if it started so much later, time as well. */
function clashesAfter({ board }: Seats, lesson: Lesson, minutes: number): string[] {
  const later: Lesson = { ...lesson, start: lesson.start + minutes * MINUTE_MS };
  const uses = usedBy(lesson);
  const others = new Map(liveBookings(board.day).map((one) => [one.lesson.id, one.lesson]));
  return [...others.values()]
    .filter(
      (other) => other.id !== lesson.id && other.start < lessonEnd(later) && later.start < lessonEnd(other),
    )
    .filter((other) => [...usedBy(other)].some((one) => uses.has(one)))
    .map((other) => other.id);
}

/** What a lesson needs for itself alone: arena, instructor, riders, horses and helpers. */
function usedBy({ arena, instructor, places }: Lesson): Set<string> {
  const used = new Set<string>();
  if (arena !== null) used.add(`arena ${arena}`);
  if (instructor !== null) used.add(`staff ${instructor}`);
  for (const place of places) {
    if (place.cancelled) continue;
    if (place.rider !== null) used.add(`rider ${place.rider}`);
    if (place.horse !== null) used.add(`horse ${place.horse}`);
    for (const one of [place.leader, ...place.sideWalkers]) if (one !== null) used.add(`helper ${one}`);
  }
  return used;
}

/** Nothing stands against it alone: then it is the preparation of all together, or nobody looked far enough. */
function together(
  seats: Seats,
  seat: Seat,
  horse: Horse,
  tack: string | null,
  readyChance: ReadyChance,
  beside: Beside | null,
): Block[] {
  const changes = [...(beside?.fact.changes ?? []), { ...refOf(seat), horse: horse.id, tack }];
  const fact: StandInsTaken = { kind: 'standInsTaken', changes, work: beside?.fact.work ?? [] };
  const late = readyBlocks(seats, seat, readyChance(horse.id, refOf(seat), fact));
  return late.length > 0 ? late : [{ code: 'not-settled', unblock: null }];
}
