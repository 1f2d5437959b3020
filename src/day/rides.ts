/** The checks of a lesson’s horses before its riders are up: which count, and who may make them. */
import { own } from '../barn/basics.ts';
import type { Board, CheckMark, PlaceCheck } from './board.ts';
import type { Op, OpFact, Reason } from './ops.ts';
import { markOf, prepOf } from './preps.ts';

export type PlacesChecked = Extract<OpFact, { kind: 'placesChecked' }>;

/** The check of a place that counts: of the horse and tack it has now, and by another than who tacked. */
export function checkOf(board: Board, lesson: string, place: string, check: PlaceCheck): CheckMark | null {
  const { day } = board;
  const now = own(day.lessons, lesson)?.places.find((one) => one.id === place);
  const marks = own(own(day.rides, lesson)?.checks ?? {}, place)?.[check] ?? [];
  const prep = prepOf(day, lesson, place);
  const tackedBy = prep ? markOf(prep, 'tack')?.by : undefined;
  const counts = (mark: CheckMark): boolean =>
    mark.horse === now?.horse && mark.tack === now.tack && (check !== 'girth' || mark.by !== tackedBy);
  return marks.find(counts) ?? null;
}

/** Who may check: a second person for the girth, as the barn's rules say, and one of the staff for the instructor's. */
export function checkObjection(board: Board, op: Op, fact: PlacesChecked): Reason | null {
  const { barn, day } = board;
  const lesson = own(day.lessons, fact.lesson);
  if (!lesson) return { code: 'unknownLesson' };
  if (op.by === null) return { code: 'needsName' };
  const isStaff = own(barn.staff, op.by) !== undefined;
  if (fact.check === 'instructor' && !isStaff) return { code: 'needsInstructor' };
  for (const id of fact.places) {
    const place = lesson.places.find((one) => one.id === id);
    if (!place) return { code: 'unknownPlace' };
    const horse = place.horse;
    if (horse === null || fact.check === 'instructor' || isStaff) continue;
    const prep = prepOf(day, lesson.id, id);
    if (prep && markOf(prep, 'tack')?.by === op.by) return { code: 'samePerson', horse };
    if (barn.rules.secondCheck === 'leader' && place.leader !== op.by) return { code: 'onlyLeader', horse };
    const cleared = own(barn.volunteers, op.by)?.clearances.includes('tack');
    if (barn.rules.secondCheck === 'anyone' && !cleared) {
      return { code: 'notClearedFor', volunteer: op.by, clearance: 'tack' };
    }
  }
  return null;
}
