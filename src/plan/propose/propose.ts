/** Horses for riders and people for roles, for what is still open on the day sheet. It changes nothing that is planned. */
import { own } from '../../barn/basics.ts';
import type { Board } from '../../day/board.ts';
import { proposeHorses } from './horses.ts';
import type { PlacesPlanned, Proposal } from './model.ts';
import { proposePeople } from './people.ts';

/** For all open places of the board's day. Deterministic; never throws. */
export function propose(board: Board): Proposal {
  const horses = proposeHorses(board);
  const people = proposePeople(horses.board);
  return {
    fact: changesBetween(board, people.board),
    horses: horses.choices,
    people: people.choices,
    open: [...horses.open, ...people.open],
  };
}

/** Places that differ, as one decision; null: none does. */
function changesBetween(was: Board, now: Board): PlacesPlanned | null {
  const changes = Object.values(now.day.lessons).flatMap((lesson) => {
    const before = own(was.day.lessons, lesson.id)?.places ?? [];
    return lesson.places
      .filter((place) => !before.includes(place))
      .map(({ cancelled: _not, ...place }) => ({ lesson: lesson.id, place }));
  });
  return changes.length > 0 ? { kind: 'placesPlanned', changes } : null;
}
