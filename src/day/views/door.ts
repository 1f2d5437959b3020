/** What the arena door shows: is the next lesson safe, horse by horse, and the one after it in small. */
import { own } from '../../barn/basics.ts';
import type { Lesson, Place } from '../../barn/lesson.ts';
import type { Forecast } from '../../plan/model.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Board, Prep } from '../board.ts';
import { isPulled, lessonEnd, markOf, nextStage, rampTime } from '../preps.ts';
import { personName } from './aisle.ts';
import { chanceWord, type ChanceWord } from './chance.ts';
import { readiness, worse, type Readiness } from './words.ts';

/** How long after its start a lesson with a horse missing stays in front. */
const LATE_LESSON_MS = 20 * MINUTE_MS;

export type DoorHorse = {
  readonly place: string;
  readonly horse: string | null;
  readonly name: string | null;
  readonly word: Readiness;
  /** Predicted, or when it was tacked; null: cannot be said. */
  readonly ready: number | null;
  readonly stall: string | null;
};

export type DoorLesson = {
  readonly id: string;
  readonly name: string;
  readonly start: number;
  readonly end: number;
  readonly arena: string | null;
  readonly instructor: string | null;
  /** The earliest of its horses' ramp times. */
  readonly rampTime: number;
  /** The worst of its horses' words; tight, too, when each is on time but all of them together are not that sure. */
  readonly word: Readiness;
  /** How sure it is that every horse is at the ramp in time; null: that is over, or cannot be said. */
  readonly chance: ChanceWord | null;
  /** When the last of its horses is predicted ready; null: all are, or it cannot be said. */
  readonly ready: number | null;
  readonly horses: readonly DoorHorse[];
};

/** The lessons of this arena (null: all) still to come, at barn time `now` in ms: next one first. */
export function doorLessons(
  board: Board,
  forecast: Forecast | null,
  now: number,
  arena: string | null,
): DoorLesson[] {
  return Object.values(board.day.lessons)
    .filter((lesson) => !lesson.cancelled && (arena === null || lesson.arena === arena))
    .map((lesson) => doorLesson(board, lesson, forecast))
    .filter((lesson) => lesson.horses.length > 0 && isToCome(lesson, now))
    .sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1));
}

function isToCome(lesson: DoorLesson, now: number): boolean {
  if (lesson.start > now) return true;
  return lesson.word !== 'ready' && now < Math.min(lesson.end, lesson.start + LATE_LESSON_MS);
}

function doorLesson(board: Board, lesson: Lesson, forecast: Forecast | null): DoorLesson {
  const { barn, day } = board;
  const places = lesson.places.filter((place) => !place.cancelled);
  const horses = places.map((place) => doorHorse(board, lesson, place, forecast));
  const lead = (barn.rules.warmUpMinutes + barn.rules.mountingMinutes) * MINUTE_MS;
  const ramps = places.flatMap((place) => {
    const prep = prepOf(board, lesson, place);
    // A shared prep's ramp time belongs to its first lesson.
    const first = prep && prep.places[0]?.lesson === lesson.id;
    return first ? (rampTime(day, prep, barn.rules) ?? []) : [];
  });
  const worst = horses.map((horse) => horse.word).reduce(worse, 'ready');
  const known = forecast && isOpen(worst) ? (own(forecast.lessons, lesson.id) ?? null) : null;
  const isUnsure = known !== null && ['tight', 'late'].includes(known.word);
  return {
    id: lesson.id,
    name: lesson.name,
    start: lesson.start,
    end: lessonEnd(lesson),
    arena: lesson.arena === null ? null : (own(barn.arenas, lesson.arena)?.name ?? null),
    instructor: lesson.instructor === null ? null : personName(board, lesson.instructor),
    rampTime: ramps.length > 0 ? Math.min(...ramps) : lesson.start - lead,
    word: isUnsure ? worse(worst, 'tight') : worst,
    chance: known === null || known.ready === null ? null : chanceWord(known.chance),
    ready: known?.ready ?? null,
    horses,
  };
}

/** Something is still to be done, and will be. */
function isOpen(word: Readiness): boolean {
  return word === 'onTime' || word === 'tight' || word === 'late';
}

function prepOf({ day }: Board, lesson: Lesson, place: Place): Prep | null {
  const serves = (prep: Prep): boolean =>
    prep.places.some((ref) => ref.lesson === lesson.id && ref.place === place.id);
  return Object.values(day.preps).find(serves) ?? null;
}

function doorHorse(board: Board, lesson: Lesson, place: Place, forecast: Forecast | null): DoorHorse {
  const horse = place.horse === null ? undefined : own(board.barn.horses, place.horse);
  const prep = prepOf(board, lesson, place);
  if (!horse || !prep) {
    const pulled = horse && isPulled(board.barn, horse.id);
    return {
      place: place.id,
      horse: horse?.id ?? null,
      name: horse?.name ?? null,
      word: pulled ? 'pulled' : 'noHorse',
      ready: null,
      stall: null,
    };
  }
  const tacked = nextStage(prep) === null ? (markOf(prep, 'tack')?.at ?? null) : null;
  return {
    place: place.id,
    horse: horse.id,
    name: horse.name,
    word: readiness(board, prep, forecast),
    ready: tacked ?? (forecast ? (own(forecast.preps, prep.id)?.ready ?? null) : null),
    stall: own(board.barn.stalls, horse.stall)?.name ?? null,
  };
}
