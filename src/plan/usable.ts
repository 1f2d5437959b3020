/** Numbers that cannot be are taken out of a planner's input before anything is computed, and named. */
import { MINUTE_MS } from '../time/units.ts';
import type { LeftOut, LessonWork, PlanInput, Work, Worker } from './model.ts';

/** 2000-01-01 … 2200-01-01: the range of instants on the wire. */
const FIRST_INSTANT = 946_684_800_000;
const LAST_INSTANT = 7_258_118_400_000;

/** `input` with only what can be reckoned with; the rest stands in its `leftOut`. */
export function usable(input: PlanInput): PlanInput {
  const leftOut: LeftOut[] = [...input.leftOut];
  if (!isInstant(input.now)) {
    leftOut.push({ what: 'everything', id: 'now', why: 'badTime' });
    return { ...input, now: FIRST_INSTANT, works: [], workers: [], lessons: [], leftOut };
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
  const works = take('prep', input.works, (work) => work.prep, workFault);
  const workers = take('person', input.workers, (worker) => worker.id, workerFault);
  const lessons = take('lesson', input.lessons, (lesson) => lesson.id, lessonFault);
  return {
    ...input,
    works,
    workers,
    lessons,
    certainty: Math.min(0.99, Math.max(0.5, Number.isNaN(input.certainty) ? 0.8 : input.certainty)),
    extrasMs: input.extrasMs >= 0 ? input.extrasMs : 10 * MINUTE_MS,
    leftOut,
  };
}

/** The instant `offset` ms after `now`, whole; null when there is none. */
export function instantAfter(now: number, offset: number): number | null {
  return Number.isFinite(offset) ? wholeInstant(now + offset) : null;
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
    work.freeFrom,
    work.notBefore,
    work.markedAt,
    ...work.pieces.map((p) => p.underWay?.since ?? null),
  ];
  if (!isInstant(work.rampTime) || !times.every(isInstantOrNull)) return 'badTime';
  return new Set(work.pieces.map((piece) => piece.id)).size < work.pieces.length ? 'twice' : null;
}

function workerFault(worker: Worker): LeftOut['why'] | null {
  const times = [worker.until, worker.expectedFrom, worker.idleSince];
  if (!isInstant(worker.from) || !times.every(isInstantOrNull)) return 'badTime';
  if (!worker.busy.every((duty) => isInstant(duty.from) && isInstant(duty.until))) return 'badTime';
  return worker.pace > 0 && Number.isFinite(worker.pace) ? null : 'badPace';
}

function lessonFault(lesson: LessonWork): LeftOut['why'] | null {
  const times = [lesson.rampTime, ...lesson.horses.flatMap((horse) => [horse.rampTime, horse.freeFrom])];
  return times.every(isInstantOrNull) ? null : 'badTime';
}
