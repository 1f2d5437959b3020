/** From the board to what the planner works on: open work with its times, people with their clocks, and lessons. */
import { own } from '../barn/basics.ts';
import type { Lesson, Place } from '../barn/lesson.ts';
import type { Volunteer } from '../barn/people.ts';
import { asks, isAfterStage, WORK_STAGES, type Stage } from '../barn/stage.ts';
import type { Board, Hands, Prep } from '../day/board.ts';
import { pieceId, stagesOf } from '../day/pieces.ts';
import {
  isFinished,
  isOver,
  isPulled,
  isWanted,
  lessonEnd,
  lessonsBefore,
  lessonsOf,
  liveBookings,
  markOf,
  openStages,
  outAt,
  prepOf,
  rampTime,
  type Booking,
} from '../day/preps.ts';
import { checkOf } from '../day/rides.ts';
import { dutiesOn, type RoleDuty } from '../day/roles.ts';
import { MINUTE_MS } from '../time/units.ts';
import { afterWorks, onAfterUntil } from './after/works.ts';
import { learnedNothing, type Learned } from './learned.ts';
import type { Duty, LeftOut, LessonWork, Piece, PlanInput, Work, Worker } from './model.ts';

/**
 * Somebody expected who has not come yet is expected after as long again as they are overdue, within these bounds, so
 * that the forecast worsens while everybody waits. Common practice, no source.
 */
const OVERDUE_LEAST_MS = 2 * MINUTE_MS;
const OVERDUE_MOST_MS = 10 * MINUTE_MS;

/** The planner's view of `board` at barn time `now` (ms). `learned` null: this barn has no history yet. */
export function planInput(board: Board, now: number, learned: Learned | null = null): PlanInput {
  const { rules } = board.barn;
  const leftOut: LeftOut[] = [];
  const bookings = liveBookings(board.day);
  return {
    now,
    works: works(board, bookings, now, leftOut),
    afterWorks: afterWorks(board, now),
    workers: workers(board, now, leftOut),
    lessons: lessons(board, now),
    learned: learned ?? learnedNothing(rules),
    certainty: rules.certainty,
    extrasMs: rules.extrasMinutes * MINUTE_MS,
    leftOut,
  };
}

function works(board: Board, bookings: readonly Booking[], now: number, leftOut: LeftOut[]): Work[] {
  return Object.values(board.day.preps)
    .filter((prep) => isWanted(board.barn, prep) && !isOver(board.day, prep, now))
    .flatMap((prep) => {
      const made = work(board, bookings, prep, now);
      if ('why' in made) leftOut.push({ what: 'prep', id: prep.id, why: made.why });
      return 'why' in made ? [] : [made];
    });
}

function work(
  board: Board,
  bookings: readonly Booking[],
  prep: Prep,
  now: number,
): Work | { why: LeftOut['why'] } {
  const { barn, day } = board;
  const ramp = rampTime(day, prep, barn.rules);
  const horse = own(barn.horses, prep.horse);
  if (!horse) return { why: 'unknownHorse' };
  if (ramp === null) return { why: 'noLesson' };
  const piece = (stage: Stage): Piece => ({
    id: pieceId(prep.id, stage),
    prep: prep.id,
    stage,
    horse: prep.horse,
    asks: asks(horse.experiencedFor, stage),
    lengthMs: barn.rules.stageMinutes[stage] * MINUTE_MS,
    underWay: prep.onIt?.stage === stage ? { by: prep.onIt.by, since: prep.onIt.since } : null,
  });
  const { feet, coat, tack } = barn.rules.stageMinutes;
  const feetOpen = prep.kind === 'full' && !isFinished(prep, 'feet');
  const pieces = openStages(barn, prep).map(piece);
  const before = lessonBefore(bookings, prep.horse, lessonsOf(day, prep)[0]);
  return {
    prep: prep.id,
    horse: prep.horse,
    metres: own(barn.stalls, horse.stall)?.metres ?? 0,
    rampTime: ramp,
    feetBy: feetOpen ? ramp - (feet + coat + tack) * MINUTE_MS : null,
    freeFrom: before && outAt(day, before, now),
    freeAfter: before && before.id,
    notBefore: ramp - barn.rules.earliestMinutes * MINUTE_MS,
    markedAt: lastMark(prep),
    pieces,
  };
}

/** The last lesson this horse goes in before `first`. */
function lessonBefore(bookings: readonly Booking[], horse: string, first: Lesson | undefined): Lesson | null {
  return (first ? lessonsBefore(bookings, horse, first.start) : []).reduce<Lesson | null>(
    (last, lesson) => (last && lessonEnd(last) >= lessonEnd(lesson) ? last : lesson),
    null,
  );
}

function lastMark(prep: Prep): number | null {
  const times = stagesOf(prep).flatMap((stage) => markOf(prep, stage)?.at ?? []);
  return times.length > 0 ? Math.max(...times) : null;
}

function workers(board: Board, now: number, leftOut: LeftOut[]): Worker[] {
  const duties = Map.groupBy(dutiesOn(board, now), (duty) => duty.volunteer);
  return Object.entries(board.day.hands).flatMap(([id, hands], seat) => {
    const from = availableFrom(hands, now);
    if (from === null) return [];
    const volunteer = own(board.barn.volunteers, id);
    if (volunteer) {
      const busy = busyTimes(board, volunteer, duties.get(id) ?? [], now);
      return [worker(board, volunteer, busy, { hands, seat, from, now })];
    }
    leftOut.push({ what: 'person', id, why: 'unknownPerson' });
    return [];
  });
}

/** Null: cannot be counted on today. */
function availableFrom({ presence }: Hands, now: number): number | null {
  switch (presence.state) {
    case 'here':
      return now;
    case 'expected':
      if (presence.from === null) return null;
      return presence.from > now
        ? presence.from
        : now + Math.min(OVERDUE_MOST_MS, Math.max(OVERDUE_LEAST_MS, now - presence.from));
    case 'left':
    case 'notComing':
      return null;
  }
}

function worker(
  board: Board,
  volunteer: Volunteer,
  busy: readonly Duty[],
  { hands, seat, from, now }: { hands: Hands; seat: number; from: number; now: number },
): Worker {
  return {
    id: volunteer.id,
    seat,
    clearances: volunteer.clearances,
    pace: volunteer.private?.pace ?? 1,
    from,
    until: hands.presence.until,
    expectedFrom: hands.presence.state === 'expected' ? hands.presence.from : null,
    idleSince: hands.presence.state === 'here' ? idleSince(board, volunteer.id, hands, busy, now) : null,
    busy,
    queue: hands.queue,
  };
}

/** The last of what they are known to have done: come, finished a stage, been in a lesson. */
function idleSince(
  { day }: Board,
  id: string,
  { presence }: Hands,
  busy: readonly Duty[],
  now: number,
): number | null {
  const preps = Object.values(day.preps);
  const inLesson = busy.some(({ from, until }) => from <= now && now < until);
  if (inLesson || preps.some((prep) => prep.onIt?.by === id)) return null;
  const marks = preps.flatMap((prep) =>
    WORK_STAGES.flatMap((stage) => prep.marks[stage].flatMap((mark) => (mark.by === id ? mark.at : []))),
  );
  const lessons = busy.flatMap(({ until }) => (until <= now ? until : []));
  return Math.max(presence.since, ...marks, ...lessons);
}

/** Parts in lessons, and what they are on now of the work after one. Sorted by time. */
function busyTimes(board: Board, volunteer: Volunteer, duties: readonly RoleDuty[], now: number): Duty[] {
  const parts = duties.map(({ from, until, place }): Duty => ({ from, until, horse: place.horse }));
  const onIt = Object.values(board.day.preps).find((prep) => prep.onIt?.by === volunteer.id)?.onIt;
  if (onIt && isAfterStage(onIt.stage)) {
    const until = onAfterUntil(board, onIt, onIt.stage, now);
    parts.push({ from: onIt.since, until, horse: null });
  }
  return parts.sort((a, b) => a.from - b.from);
}

function lessons(board: Board, now: number): LessonWork[] {
  return Object.values(board.day.lessons)
    .filter((lesson) => !lesson.cancelled && outAt(board.day, lesson, now) > now)
    .flatMap((lesson) => lessonWork(board, lesson, now) ?? []);
}

/** When a horse that goes on in `lesson` on the same tack can be at the ramp again: out of `earlier`, its girth checked. */
function againAt(board: Board, lesson: Lesson, place: Place, earlier: Lesson, now: number): number {
  const { rules } = board.barn;
  const out = outAt(board.day, earlier, now);
  const checked = rules.secondCheck === 'off' || checkOf(board, lesson.id, place.id, 'girth') !== null;
  return checked ? out : out + rules.girthMinutes * MINUTE_MS;
}

/** Null for a lesson nobody rides in. */
function lessonWork(board: Board, lesson: Lesson, now: number): LessonWork | null {
  const { barn, day } = board;
  const places = lesson.places.filter((place) => !place.cancelled);
  if (places.length === 0) return null;
  const warm = lesson.start - barn.rules.mountingMinutes * MINUTE_MS;
  const fresh = warm - barn.rules.warmUpMinutes * MINUTE_MS;
  const horses = places.flatMap((place) => {
    const prep = prepOf(day, lesson.id, place.id);
    if (!prep || !isWanted(barn, prep)) return [];
    const served = lessonsOf(day, prep);
    const earlier = served[served.indexOf(lesson) - 1];
    // Straight from the lesson before on the same tack, the horse is warm.
    const ramp = earlier ? warm : (rampTime(day, prep, barn.rules) ?? fresh);
    return [
      {
        prep: prep.id,
        rampTime: ramp,
        freeFrom: earlier ? againAt(board, lesson, place, earlier, now) : null,
      },
    ];
  });
  const without = places.some((place) => place.horse === null || !own(barn.horses, place.horse));
  const pulled = places.some((place) => place.horse !== null && isPulled(barn, place.horse));
  return {
    id: lesson.id,
    rampTime: horses.length > 0 ? Math.max(...horses.map((horse) => horse.rampTime)) : fresh,
    horses,
    missing: pulled ? 'pulled' : without ? 'noHorse' : null,
  };
}
