/** Who may lead a horse or walk beside it in a lesson: cleared, there at the time, and not needed elsewhere. */
import { own } from '../barn/basics.ts';
import type { Lesson } from '../barn/lesson.ts';
import type { Volunteer } from '../barn/people.ts';
import type { Clearance } from '../barn/stage.ts';
import { overlap } from '../plan/standIns/seats.ts';
import type { Board, Day } from './board.ts';
import { peopleOf, ROLE_ASKS, type RoleName } from './roles.ts';
import { lessonEnd, liveBookings } from './preps.ts';
import { isCountedOn } from './presence.ts';

/** Why somebody may not go along. */
export type AlongBlock =
  | { readonly code: 'not-cleared'; readonly clearance: Clearance }
  /** Not of age, and the barn's rules want an adult. */
  | { readonly code: 'too-young' }
  /** Not on the day's list. */
  | { readonly code: 'not-expected' }
  /** Gone home, or said they do not come. */
  | { readonly code: 'away' }
  /** There, but not for the whole lesson. Instants in ms; null: open. */
  | { readonly code: 'other-hours'; readonly from: number | null; readonly until: number | null }
  /** In that lesson at the same time, or in another role of the same one. */
  | { readonly code: 'busy'; readonly lesson: string };

/** Lessons of the day, the given one included, that this person goes along in; a lesson as often as it has roles for them. */
export function lessonsAlong(day: Day, person: string): Lesson[] {
  return liveBookings(day).flatMap(({ lesson, place }) =>
    peopleOf(place)
      .filter((one) => one === person)
      .map(() => lesson),
  );
}

/**
 * Everything against `person` in this role of `lesson`, as the day stands. With `isIn` they have the role already, and it
 * does not stand against itself.
 */
export function againstAlong(
  { barn, day }: Board,
  person: Volunteer,
  role: RoleName,
  lesson: Lesson,
  isIn: boolean,
): AlongBlock[] {
  const blocks: AlongBlock[] = [];
  const clearance = ROLE_ASKS[role];
  if (!person.clearances.includes(clearance)) blocks.push({ code: 'not-cleared', clearance });
  const may = role === 'leader' ? barn.rules.minorsMayLead : barn.rules.minorsMaySideWalk;
  if (person.private?.minor === true && !may) blocks.push({ code: 'too-young' });
  const presence = own(day.hands, person.id)?.presence;
  if (!presence) blocks.push({ code: 'not-expected' });
  else if (!isCountedOn(presence)) blocks.push({ code: 'away' });
  else {
    const { from, until } = presence;
    const isLate = presence.state === 'expected' && from !== null && from > lesson.start;
    const goesEarly = until !== null && until < lessonEnd(lesson);
    if (isLate || goesEarly) blocks.push({ code: 'other-hours', from, until });
  }
  const others = lessonsAlong(day, person.id).filter((one) => overlap(one, lesson));
  const itself = isIn ? others.findIndex((one) => one.id === lesson.id) : -1;
  const other = others.find((_, i) => i !== itself);
  if (other) blocks.push({ code: 'busy', lesson: other.id });
  return blocks;
}
