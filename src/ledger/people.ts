/** Volunteers' hours, and what they did in them. */
import { lessonEnd, liveBookings } from '../day/preps.ts';
import { WORK_STAGES } from '../barn/stage.ts';
import type { PersonFigures, Stay } from './account.ts';
import { markOf } from '../day/preps.ts';
import type { Day } from '../day/board.ts';
import type { DayRecord } from './record.ts';

/** `day` is the record's, with its corrections. Somebody with a role or a stage but no stay is listed with no hours. */
export function peopleOf(record: DayRecord, day: Day, stays: readonly Stay[]): PersonFigures[] {
  const people = new Map<string, PersonFigures>();
  const add = (person: string, more: Partial<Omit<PersonFigures, 'person'>>): void => {
    people.set(person, addPerson(people.get(person) ?? nothing(person), { ...nothing(person), ...more }));
  };
  for (const { volunteer, ms, until } of stays) {
    add(volunteer, { ms, stays: 1, openStays: until === null ? 1 : 0 });
  }
  for (const { lesson, place } of liveBookings(day)) {
    const end = Math.min(lessonEnd(lesson), record.now ?? Infinity);
    const ms = Math.max(0, end - lesson.start);
    if (ms === 0) continue;
    if (place.leader !== null) add(place.leader, { leadingMs: ms });
    for (const one of place.sideWalkers) add(one, { sideWalkingMs: ms });
  }
  for (const prep of Object.values(day.preps)) {
    for (const stage of WORK_STAGES) {
      const by = markOf(prep, stage)?.by ?? null;
      if (by !== null) add(by, { stages: 1 });
    }
  }
  return [...people.values()].sort((a, b) => (a.person < b.person ? -1 : 1));
}

function nothing(person: string): PersonFigures {
  return { person, ms: 0, stays: 0, openStays: 0, leadingMs: 0, sideWalkingMs: 0, stages: 0 };
}

export function addPerson(a: PersonFigures, b: PersonFigures): PersonFigures {
  return {
    person: a.person,
    ms: a.ms + b.ms,
    stays: a.stays + b.stays,
    openStays: a.openStays + b.openStays,
    leadingMs: a.leadingMs + b.leadingMs,
    sideWalkingMs: a.sideWalkingMs + b.sideWalkingMs,
    stages: a.stages + b.stages,
  };
}
