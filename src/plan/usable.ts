/** Numbers that cannot be are taken out of a planner's input before anything is computed, and named. */
import { HOUR_MS, MINUTE_MS } from '../time/units.ts';
import type { Learned } from './learned.ts';
import type { AfterWork, LeftOut, LessonWork, PlanInput, Work, Worker } from './model.ts';

/** 2000-01-01 … 2200-01-01: the range of instants on the wire. */
const FIRST_INSTANT = 946_684_800_000;
/** A horse stabled further off than this is a slip of the pen; metres. */
const LONGEST_AISLE_M = 2000;
/** Nobody's time over the barn's lies outside; what follows from it must still be an instant. */
const LEAST_PACE = 0.01;
const MOST_PACE = 100;
const LAST_INSTANT = 7_258_118_400_000;

/** `input` with only what can be reckoned with; the rest stands in its `leftOut`. */
export function usable(input: PlanInput): PlanInput {
  const leftOut: LeftOut[] = [...input.leftOut];
  if (!isInstant(input.now)) {
    leftOut.push({ what: 'everything', id: 'now', why: 'badTime' });
    return { ...input, now: FIRST_INSTANT, works: [], afterWorks: [], workers: [], lessons: [], leftOut };
  }
  const take = <T>(
    what: LeftOut['what'],
    items: readonly T[],
    idOf: (item: T) => string,
    fault: (item: T) => LeftOut['why'] | null,
  ): T[] => {
    const seen = new Set<string>();
    return items.filter((item) => {
      const id = idOf(item);
      const why = seen.has(id) ? 'twice' : fault(item);
      seen.add(id);
      if (why) leftOut.push({ what, id, why });
      return !why;
    });
  };
  const works = take('prep', input.works, (work) => work.prep, workFault).map((work) =>
    within(work.metres, 0, LONGEST_AISLE_M) === null ? { ...work, metres: 0 } : work,
  );
  const afterWorks = take('prep', input.afterWorks, (work) => work.prep, afterFault);
  const workers = take('person', input.workers, (worker) => worker.id, workerFault);
  const lessons = take('lesson', input.lessons, (lesson) => lesson.id, lessonFault);
  return {
    ...input,
    works,
    afterWorks,
    workers,
    lessons,
    certainty: Math.min(0.99, Math.max(0.5, Number.isNaN(input.certainty) ? 0.8 : input.certainty)),
    extrasMs: within(input.extrasMs, 0, 240 * MINUTE_MS) ?? 10 * MINUTE_MS,
    learned: usableLearned(input.learned),
    leftOut,
  };
}

/** A model that has lost its numbers still has its stages, which `StageTimes` looks at one by one. */
function usableLearned(learned: Learned): Learned {
  const longest = 30 * MINUTE_MS;
  return {
    ...learned,
    sameHorseMs: within(learned.sameHorseMs, 0, longest) ?? 0,
    otherHorseMs: within(learned.otherHorseMs, 0, longest) ?? 0,
    unseenStart: within(learned.unseenStart, 0, 1) ?? 0,
    noShow: within(learned.noShow, 0, 1) ?? 0,
    paces: onlyWithin(learned.paces, LEAST_PACE, MOST_PACE),
    takeUpMs: onlyWithin(learned.takeUpMs, 0, 24 * HOUR_MS),
  };
}

function within(value: number, least: number, most: number): number | null {
  return value >= least && value <= most ? value : null;
}

function onlyWithin(record: Learned['paces'], least: number, most: number): Learned['paces'] {
  return Object.fromEntries(
    Object.entries(record).filter(([, value]) => within(value, least, most) !== null),
  );
}

/** The instant `offset` ms after `now`, whole; null when there is none. */
export function instantAfter(now: number, offset: number): number | null {
  // The length is rounded, not the sum: a forecast an hour later must not differ by a rounding.
  return Number.isFinite(offset) ? wholeInstant(now + Math.round(offset)) : null;
}

/** The nearest instant that can go on the wire. */
export function wholeInstant(at: number): number {
  return Math.min(LAST_INSTANT, Math.max(FIRST_INSTANT, Math.round(at)));
}

function isInstant(at: number): boolean {
  return at >= FIRST_INSTANT && at <= LAST_INSTANT;
}

function isInstantOrNull(at: number | null): boolean {
  return at === null || isInstant(at);
}

function workFault(work: Work): LeftOut['why'] | null {
  const times = [
    work.feetBy,
    work.freeFrom,
    work.notBefore,
    work.markedAt,
    ...work.pieces.map((p) => p.underWay?.since ?? null),
  ];
  if (!isInstant(work.rampTime) || !times.every(isInstantOrNull)) return 'badTime';
  return new Set(work.pieces.map((piece) => piece.id)).size < work.pieces.length ? 'twice' : null;
}

function afterFault({ from, pieces }: AfterWork): LeftOut['why'] | null {
  const times = pieces.flatMap(({ dueBy, underWay }) =>
    underWay ? [dueBy, underWay.since, underWay.until] : [dueBy],
  );
  const lengths = pieces.map(({ lengthMs }) => within(lengthMs, 0, 24 * HOUR_MS));
  return [from, ...times].every(isInstant) && !lengths.includes(null) ? null : 'badTime';
}

function workerFault(worker: Worker): LeftOut['why'] | null {
  const times = [worker.until, worker.expectedFrom, worker.idleSince];
  if (!isInstant(worker.from) || !times.every(isInstantOrNull)) return 'badTime';
  if (!worker.busy.every((duty) => isInstant(duty.from) && isInstant(duty.until))) return 'badTime';
  return within(worker.pace, LEAST_PACE, MOST_PACE) === null ? 'badPace' : null;
}

function lessonFault(lesson: LessonWork): LeftOut['why'] | null {
  const times = [lesson.rampTime, ...lesson.horses.flatMap((horse) => [horse.rampTime, horse.freeFrom])];
  return times.every(isInstantOrNull) ? null : 'badTime';
}
