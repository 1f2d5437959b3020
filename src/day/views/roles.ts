/** Roles in today's lessons: which nobody has, and who could take one. */
import { own } from '../../barn/basics.ts';
import type { Lesson, Place } from '../../barn/lesson.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Board, Presence } from '../board.ts';
import { pieceParts } from '../pieces.ts';
import type { Reason } from '../ops.ts';
import { liveBookings, outAt, placeRamp } from '../preps.ts';
import { isCountedOn } from '../presence.ts';
import { rolesObjection, wantedOf, type RoleName, type RolesChanged } from '../roles.ts';
import { personName } from './aisle.ts';
import { openWork } from './coordinator.ts';

/** A role in a place: one person's, or nobody's. */
export type Role = {
  readonly lesson: string;
  readonly place: string;
  readonly role: RoleName;
  /** Null: nobody is named for it. */
  readonly person: string | null;
  readonly name: string | null;
  /** Somebody is named who has left or is not coming: it is open all the same. */
  readonly isGone: boolean;
};

export type OpenRole = Role & {
  readonly lessonName: string;
  /** ms */
  readonly start: number;
  readonly horseName: string | null;
};

/** All roles of a place, the leader first, and then as many side-walkers as it asks for or has. */
export function rolesOf(board: Board, lesson: Lesson, place: Place): Role[] {
  const wanted = wantedOf(place);
  const sides = Math.max(wanted.sideWalkers, place.sideWalkers.length);
  const role = (name: RoleName, person: string | null): Role => ({
    lesson: lesson.id,
    place: place.id,
    role: name,
    person,
    name: person === null ? null : personName(board, person),
    isGone: person !== null && isGone(own(board.day.hands, person)?.presence),
  });
  return [
    ...(wanted.leader || place.leader !== null ? [role('leader', place.leader)] : []),
    ...Array.from({ length: sides }, (_, i) => role('sideWalker', place.sideWalkers[i] ?? null)),
  ];
}

/** Roles nobody fills in lessons that are not over at `now` (ms), by lesson start. */
export function openRoles(board: Board, now: number): OpenRole[] {
  return liveBookings(board.day)
    .filter(({ lesson }) => outAt(board.day, lesson, now) > now)
    .flatMap(({ lesson, place }) =>
      rolesOf(board, lesson, place)
        .filter(({ person, isGone: gone }) => person === null || gone)
        .map((role) => ({
          ...role,
          lessonName: lesson.name,
          start: lesson.start,
          horseName: place.horse === null ? null : (own(board.barn.horses, place.horse)?.name ?? null),
        })),
    );
}

export type Candidate = {
  readonly id: string;
  readonly name: string;
  readonly presence: Presence['state'];
  /** Null: they may. */
  readonly why: Reason | null;
  /** They go home before the lesson is over, at this time, ms. */
  readonly leavesAt: number | null;
  /** What they have in the same lesson now and would swap for this. */
  readonly swaps: boolean;
  /** Pieces of work in their queue. */
  readonly queued: number;
  readonly fact: RolesChanged;
};

/** People of today for a role, those who may first, then by how little else they have. At `now` (ms). */
export function roleCandidates(board: Board, role: Role, now: number): Candidate[] {
  const { barn, day } = board;
  const lesson = own(day.lessons, role.lesson);
  if (!lesson) return [];
  const place = lesson.places.find((one) => one.id === role.place);
  const from = place ? placeRamp(day, lesson, place, barn.rules) - barn.rules.leadMinutes * MINUTE_MS : 0;
  const end = outAt(day, lesson, now);
  return Object.entries(day.hands)
    .filter(([id, { presence }]) => id !== role.person && !isGone(presence) && own(barn.volunteers, id))
    .map(([id, { presence, queue }]): Candidate => {
      const { fact, swaps } = changeFor(lesson, role, id);
      const { until } = presence;
      return {
        id,
        name: personName(board, id),
        presence: presence.state,
        why: rolesObjection(board, fact, now),
        leavesAt: until !== null && until < end ? until : null,
        swaps,
        queued: queue.filter((piece) => isOpenPiece(board, piece, now)).length,
        fact,
      };
    })
    .filter(({ leavesAt }) => leavesAt === null || leavesAt > from)
    .sort((a, b) => cost(a) - cost(b) || a.queued - b.queued || a.name.localeCompare(b.name, 'en'));
}

function isOpenPiece(board: Board, piece: string, now: number): boolean {
  const parts = pieceParts(piece);
  const prep = parts ? own(board.day.preps, parts.prep) : undefined;
  return parts !== null && prep !== undefined && openWork(board, prep, now).includes(parts.stage);
}

function cost({ why, leavesAt, swaps, presence }: Candidate): number {
  if (why) return 8;
  return (leavesAt === null ? 0 : 4) + (swaps ? 2 : 0) + (presence === 'here' ? 0 : 1);
}

/** Nobody takes the role: it is open. */
export function clearedRole({ lesson, place, role, person }: Role): RolesChanged {
  return { kind: 'rolesChanged', changes: [{ lesson, place, role, out: person, in: null }] };
}

/** Somebody who has the same role beside another horse of this lesson swaps with whoever has this one. */
function changeFor(lesson: Lesson, role: Role, id: string): { fact: RolesChanged; swaps: boolean } {
  const change = { lesson: lesson.id, place: role.place, role: role.role, out: role.person, in: id };
  const theirs = lesson.places.find(
    (place) =>
      !place.cancelled &&
      place.id !== role.place &&
      (role.role === 'leader' ? place.leader === id : place.sideWalkers.includes(id)),
  );
  if (!theirs) return { fact: { kind: 'rolesChanged', changes: [change] }, swaps: false };
  const back = { ...change, place: theirs.id, out: id, in: role.person };
  return { fact: { kind: 'rolesChanged', changes: [change, back] }, swaps: true };
}

function isGone(presence: Presence | undefined): boolean {
  return presence !== undefined && !isCountedOn(presence);
}
