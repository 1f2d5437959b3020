/** Come and help: somebody at a horse asks for a hand, or is not sure; somebody named comes, and ends it. */
import { own } from '../barn/basics.ts';
import type { Board, HelpCall } from './board.ts';

/** Calls nobody has ended, earliest first. */
export function openCalls({ day }: Board): HelpCall[] {
  return day.help.filter((call) => call.ends.length === 0);
}

/**
 * Who is called when somebody at `horse` is not sure: the instructor of its next lesson at `now` (ms), else a coordinator,
 * else anybody of the staff. Null: the barn has no staff on record.
 */
export function whomToCall({ barn, day }: Board, horse: string, now: number): string | null {
  const next = Object.values(day.lessons)
    .filter((lesson) => !lesson.cancelled && lesson.start > now && lesson.instructor !== null)
    .filter((lesson) => lesson.places.some((place) => place.horse === horse && !place.cancelled))
    .sort((a, b) => a.start - b.start)[0]?.instructor;
  if (next !== undefined && next !== null && own(barn.staff, next)) return next;
  const staff = Object.values(barn.staff).sort((a, b) => (a.id < b.id ? -1 : 1));
  return (staff.find((one) => one.role === 'coordinator') ?? staff[0])?.id ?? null;
}
