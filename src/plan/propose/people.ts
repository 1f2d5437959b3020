/** People for the roles beside a rider that nobody has: cleared, there, free; matched lesson by lesson. */
import { own } from '../../barn/basics.ts';
import type { Lesson, Place } from '../../barn/lesson.ts';
import type { Volunteer } from '../../barn/people.ts';
import type { Board } from '../../day/board.ts';
import { openRolesOf } from '../../day/conflicts.ts';
import { againstAlong, lessonsAlong } from '../../day/goAlong.ts';
import { planPlaces } from '../../day/planPlaces.ts';
import { liveBookings } from '../../day/preps.ts';
import { peopleOf, type RoleName } from '../../day/roles.ts';
import { match, overlapping } from './match.ts';
import type { LeftOpen, PersonChoice, PersonReason } from './model.ts';

/** What speaks for another person first. No source: common practice. */
const POINTS = {
  /** Every lesson of the day they go along in already: work is spread. */
  lessonBefore: 10,
  /** Who may lead is kept for leading. */
  leaderBeside: 5,
  /** The horse asks for experience in its care, and they are not marked so. */
  notExperienced: 4,
  /** Not the one who went along with this rider earlier in the day. */
  otherThanBefore: 2,
} as const;

type Open = { readonly lesson: Lesson; readonly place: Place; readonly role: RoleName };

type Proposed = {
  readonly board: Board;
  readonly choices: readonly PersonChoice[];
  readonly open: readonly LeftOpen[];
};

/** Lessons at the same time are matched together, earlier ones first; what is left is tried again alone. */
export function proposePeople(start: Board): Proposed {
  let board = start;
  const choices: PersonChoice[] = [];
  const take = (asking: readonly Open[]): void => {
    const people = Object.values(board.barn.volunteers);
    const costs = asking.map((open) => people.map((person) => costOf(board, open, person)));
    const columns = match(costs);
    const before = board;
    for (const [row, open] of asking.entries()) {
      const person = people[columns[row] ?? -1];
      if (!person) continue;
      const others = (costs[row] ?? []).filter((cost) => cost < Infinity).length - 1;
      choices.push(choiceOf(before, open, person, others));
      board = withPerson(board, open, person.id);
    }
  };
  for (const group of overlapping(openRoles(board))) take(group);
  for (const { lesson, place, role } of openRoles(board)) {
    const again = openRoles(board).find(
      (one) => one.lesson.id === lesson.id && one.place.id === place.id && one.role === role,
    );
    if (again) take([again]);
  }
  return { board, choices, open: openRoles(board).map((open) => leftOpen(board, open)) };
}

/** Roles that ask for somebody, leaders first, by lesson start. */
function openRoles({ day }: Board): Open[] {
  return liveBookings(day).flatMap(({ lesson, place }) =>
    openRolesOf(place).flatMap(({ role, open }) =>
      Array.from({ length: open }, () => ({ lesson, place, role })),
    ),
  );
}

function costOf(board: Board, { lesson, place, role }: Open, person: Volunteer): number {
  if (againstAlong(board, person, role, lesson, false).length > 0) return Infinity;
  const leads = role === 'sideWalker' && person.clearances.includes('lead');
  return (
    POINTS.lessonBefore * lessonsBefore(board, person.id) +
    (leads ? POINTS.leaderBeside : 0) +
    (asksExperience(board, place) && !isExperienced(person) ? POINTS.notExperienced : 0) +
    (wasWith(board, place.rider, person.id) ? 0 : POINTS.otherThanBefore)
  );
}

function lessonsBefore({ day }: Board, person: string): number {
  return new Set(lessonsAlong(day, person).map((lesson) => lesson.id)).size;
}

function asksExperience({ barn }: Board, { horse }: Place): boolean {
  return (own(barn.horses, horse ?? '')?.experiencedFor.length ?? 0) > 0;
}

function isExperienced({ clearances }: Volunteer): boolean {
  return clearances.includes('experienced');
}

/** In another lesson of the day. */
function wasWith({ day }: Board, rider: string | null, person: string): boolean {
  if (rider === null) return false;
  return liveBookings(day).some(({ place }) => place.rider === rider && peopleOf(place).includes(person));
}

function choiceOf(
  board: Board,
  { lesson, place, role }: Open,
  person: Volunteer,
  others: number,
): PersonChoice {
  const lessons = lessonsBefore(board, person.id);
  const why: PersonReason[] = [{ code: 'others-free', others }];
  if (wasWith(board, place.rider, person.id)) why.push({ code: 'with-this-rider-before' });
  if (asksExperience(board, place) && isExperienced(person)) why.push({ code: 'experienced' });
  why.push({ code: 'in-lessons', lessons });
  return { lesson: lesson.id, place: place.id, role, person: person.id, why };
}

function withPerson(board: Board, { lesson, place, role }: Open, person: string): Board {
  const now = own(board.day.lessons, lesson.id)?.places.find((one) => one.id === place.id) ?? place;
  const { cancelled: _not, ...plan } = now;
  const next =
    role === 'leader' ? { ...plan, leader: person } : { ...plan, sideWalkers: [...plan.sideWalkers, person] };
  return planPlaces(board, { kind: 'placesPlanned', changes: [{ lesson: lesson.id, place: next }] });
}

function leftOpen(board: Board, { lesson, place, role }: Open): LeftOpen {
  const people = Object.values(board.barn.volunteers).map((person) => ({
    person: person.id,
    blocks: againstAlong(board, person, role, lesson, false),
  }));
  return { lesson: lesson.id, place: place.id, what: role, people };
}
