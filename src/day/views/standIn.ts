/** Horses that have just come in for another, so that the aisle sees them first. */
import { own } from '../../barn/basics.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Board } from '../board.ts';

/** How long a new stand-in is marked as one: about a preparation. Own choice, no source. */
export const STAND_IN_SHOWN_MS = 20 * MINUTE_MS;

/** Horses given a place of another horse less than `STAND_IN_SHOWN_MS` before `now` (ms), from the notes for undo. */
export function newStandIns({ day }: Board, now: number): ReadonlySet<string> {
  const fresh = day.recent.filter(({ at }) => now - at < STAND_IN_SHOWN_MS);
  const changed = fresh.flatMap(({ restore }) =>
    restore.flatMap((step) => (step.what === 'lesson' && step.was ? step.was : [])),
  );
  return new Set(
    changed.flatMap((was) => {
      const places = own(day.lessons, was.id)?.places ?? [];
      return places.flatMap(({ id, horse }) => {
        const before = was.places.find((place) => place.id === id);
        return horse !== null && before && before.horse !== horse ? [horse] : [];
      });
    }),
  );
}
