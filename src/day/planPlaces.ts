/** Places of today planned on the day sheet: rider, horse, tack and the people who go along, as one decision. */
import { own, put } from '../barn/basics.ts';
import type { Lesson, Place } from '../barn/lesson.ts';
import type { Board } from './board.ts';
import type { Fact, Reason } from './ops.ts';
import { isPulled } from './preps.ts';
import { leaderObjection } from './roles.ts';
import { regrouped } from './steps.ts';

type PlacesPlanned = Extract<Fact, { kind: 'placesPlanned' }>;

/** What stands against the plan, tapped at `at` (ms); null: nothing. Judged with all of it made, so that two horses may swap. */
export function planObjection(board: Board, plan: PlacesPlanned, at: number): Reason | null {
  const { barn, day } = board;
  for (const { lesson: id, place } of plan.changes) {
    const lesson = own(day.lessons, id);
    if (!lesson) return { code: 'unknownLesson' };
    const was = lesson.places.find((one) => one.id === place.id);
    if (!was && lesson.places.length >= MOST_PLACES) return { code: 'unknownPlace' };
    const people = [place.leader, ...place.sideWalkers].filter((one) => one !== null);
    if (!people.every((one) => own(barn.volunteers, one))) return { code: 'unknownPerson' };
    const stays = was && leaderObjection(day, lesson, was, place.leader, at);
    if (stays) return stays;
    const { horse } = place;
    if (horse === null || horse === was?.horse) continue;
    if (!own(barn.horses, horse)) return { code: 'unknownHorse' };
    if (isPulled(barn, horse)) return { code: 'horsePulled', horse };
  }
  for (const lesson of Object.values(lessonsPlanned(board, plan))) {
    const was = own(day.lessons, lesson.id);
    if (lesson.places.length > MOST_PLACES) return { code: 'unknownPlace' };
    const horse = lesson === was ? null : twice(lesson);
    if (horse !== null) return { code: 'horseTwice', horse };
  }
  return null;
}

/** As many as a lesson has. */
const MOST_PLACES = 12;

export function planPlaces(board: Board, plan: PlacesPlanned): Board {
  const lessons = lessonsPlanned(board, plan);
  // Fitted once, with all changes made: in between, a horse would be in two places or in none.
  return lessons === board.day.lessons ? board : regrouped({ ...board, day: { ...board.day, lessons } });
}

function lessonsPlanned({ day }: Board, { changes }: PlacesPlanned): Record<string, Lesson> {
  return changes.reduce((lessons, { lesson: id, place }) => {
    const lesson = own(lessons, id);
    return lesson ? put(lessons, id, { ...lesson, places: withPlanned(lesson.places, place) }) : lessons;
  }, day.lessons);
}

function withPlanned(places: readonly Place[], plan: Omit<Place, 'cancelled'>): Place[] {
  if (!places.some((place) => place.id === plan.id)) return [...places, { ...plan, cancelled: false }];
  return places.map((place) => (place.id === plan.id ? { ...place, ...plan } : place));
}

function twice({ places }: Lesson): string | null {
  const horses = places.flatMap((place) => (place.cancelled ? [] : (place.horse ?? [])));
  return horses.find((horse, i) => horses.indexOf(horse) !== i) ?? null;
}
