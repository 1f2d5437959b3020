/** What asks for stand-ins. Apart from the search for them: who asks does not load it. */
import type { Board, PlaceRef } from '../../day/board.ts';
import { liveBookings } from '../../day/preps.ts';
import { MINUTE_MS } from '../../time/units.ts';

/** How long after its start a lesson still waits for a horse, as on the arena door. */
const LATE_LESSON_MS = 20 * MINUTE_MS;

/** The places still to come that this horse is in, at `now` in ms: what asks for stand-ins when it is pulled. */
export function placesToCome(board: Board, horse: string, now: number): PlaceRef[] {
  return liveBookings(board.day)
    .filter(({ lesson, place }) => place.horse === horse && lesson.start + LATE_LESSON_MS > now)
    .map(({ lesson, place }) => ({ lesson: lesson.id, place: place.id }));
}
