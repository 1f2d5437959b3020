/** What the arena door shows: is the next lesson safe, horse by horse, and the one after it in small. */
import { own } from '../../barn/basics.ts';
import type { ChangeReason, Lesson, Place } from '../../barn/lesson.ts';
import type { Forecast } from '../../plan/model.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Board, PlaceCheck } from '../board.ts';
import {
  areUp,
  isPulled,
  isRidden,
  lessonEnd,
  lessonsBefore,
  liveBookings,
  markOf,
  nextStage,
  prepOf,
  rampTime,
} from '../preps.ts';
import { checkOf } from '../rides.ts';
import type { RoleName } from '../roles.ts';
import { personName } from './aisle.ts';
import { chanceWord, type ChanceWord } from './chance.ts';
import { rolesOf } from './roles.ts';
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
  /** Roles of this ride nobody fills. */
  readonly openRoles: readonly RoleName[];
  /** Names of who checked: girth and stirrups, and the instructor; null: not yet; undefined: this barn does not ask. */
  readonly girth: string | null | undefined;
  readonly instructor: string | null | undefined;
  /** Minutes of the barn's rest between lessons that are missing; 0: none. */
  readonly restShort: number;
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
  /** When it was to start before it was moved; null: as planned. */
  readonly plannedStart: number | null;
  readonly changedFor: ChangeReason | null;
};

/** A lesson with its riders up, or whose time has come. */
export type DoorRide = {
  readonly id: string;
  readonly name: string;
  readonly end: number;
  /** Since when riders are up, ms; null: nobody has tapped it. */
  readonly upSince: number | null;
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
    .filter((lesson) => lesson.horses.length > 0 && isToCome(board, lesson, now))
    .sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1));
}

/** Lessons of this arena (null: all) that are being ridden at barn time `now` in ms, by start. */
export function doorRides(board: Board, now: number, arena: string | null): DoorRide[] {
  return Object.values(board.day.lessons)
    .filter((lesson) => (arena === null || lesson.arena === arena) && isRidden(board.day, lesson, now))
    .filter((lesson) => lesson.places.some((place) => !place.cancelled))
    .sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1))
    .map((lesson) => ({
      id: lesson.id,
      name: lesson.name,
      end: lessonEnd(lesson),
      upSince: areUp(board.day, lesson.id)
        ? (own(board.day.rides, lesson.id)?.mounted.at(-1)?.at ?? null)
        : null,
    }));
}

/** With riders up, or down again, it is no longer to come. */
function isToCome({ day }: Board, lesson: DoorLesson, now: number): boolean {
  if (areUp(day, lesson.id) !== null) return false;
  if (lesson.start > now) return true;
  return lesson.word !== 'ready' && now < Math.min(lesson.end, lesson.start + LATE_LESSON_MS);
}

function doorLesson(board: Board, lesson: Lesson, forecast: Forecast | null): DoorLesson {
  const { barn, day } = board;
  const places = lesson.places.filter((place) => !place.cancelled);
  const horses = places.map((place) => doorHorse(board, lesson, place, forecast));
  const lead = (barn.rules.warmUpMinutes + barn.rules.mountingMinutes) * MINUTE_MS;
  const ramps = places.flatMap((place) => {
    const prep = prepOf(board.day, lesson.id, place.id);
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
    plannedStart: lesson.plannedStart ?? null,
    changedFor: lesson.changedFor ?? null,
  };
}

/** Something is still to be done, and will be. */
function isOpen(word: Readiness): boolean {
  return word === 'onTime' || word === 'tight' || word === 'late';
}

function doorHorse(board: Board, lesson: Lesson, place: Place, forecast: Forecast | null): DoorHorse {
  const { barn, day } = board;
  const horse = place.horse === null ? undefined : own(barn.horses, place.horse);
  const prep = prepOf(day, lesson.id, place.id);
  const open = rolesOf(board, lesson, place).filter(({ person, isGone }) => person === null || isGone);
  const about = { place: place.id, openRoles: open.map(({ role }) => role) };
  if (!horse || !prep) {
    const pulled = horse && isPulled(barn, horse.id);
    return {
      ...about,
      horse: horse?.id ?? null,
      name: horse?.name ?? null,
      word: pulled ? 'pulled' : 'noHorse',
      ready: null,
      stall: null,
      girth: undefined,
      instructor: undefined,
      restShort: 0,
    };
  }
  const tacked = nextStage(prep) === null ? (markOf(prep, 'tack')?.at ?? null) : null;
  const checked = (check: PlaceCheck): string | null => {
    const mark = checkOf(board, lesson.id, place.id, check);
    return mark && personName(board, mark.by);
  };
  return {
    ...about,
    horse: horse.id,
    name: horse.name,
    word: readiness(board, prep, forecast),
    ready: tacked ?? (forecast ? (own(forecast.preps, prep.id)?.ready ?? null) : null),
    stall: own(barn.stalls, horse.stall)?.name ?? null,
    girth: barn.rules.secondCheck === 'off' ? undefined : checked('girth'),
    instructor: barn.rules.instructorCheck ? checked('instructor') : undefined,
    restShort: restShort(board, lesson, horse.id),
  };
}

/** By the lessons' times: what was tapped comes too late to change the plan. */
function restShort({ barn, day }: Board, lesson: Lesson, horse: string): number {
  const ends = lessonsBefore(liveBookings(day), horse, lesson.start).map(lessonEnd);
  const rest = (lesson.start - Math.max(-Infinity, ...ends)) / MINUTE_MS;
  return Math.max(0, Math.ceil(barn.rules.restMinutes - rest));
}
