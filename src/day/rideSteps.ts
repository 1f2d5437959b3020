/** What a tap makes of a lesson: its riders up and down, its horses checked. */
import { own, put, without } from '../barn/basics.ts';
import type { Board, CheckMark, Day, Ride, RideMark } from './board.ts';
import { KEPT_RIDE_MARKS } from './kept.ts';
import { PLACE_CHECKS } from './placeChecks.ts';
import { withDay, type Stamp } from './steps.ts';
import type { PlacesChecked } from './rides.ts';

const NOTHING_TAPPED: Ride = { mounted: [], down: [], checks: {} };

const NOT_CHECKED: Ride['checks'][string] = { girth: [], instructor: [] };

export function ridersTapped(board: Board, lesson: string, what: 'mounted' | 'down', stamp: Stamp): Board {
  if (!own(board.day.lessons, lesson)) return board;
  return withRide(board, lesson, (ride) => {
    const marks = added(ride[what], { op: stamp.id, by: stamp.by, at: tapTime(stamp) });
    return marks === ride[what] ? ride : { ...ride, [what]: marks };
  });
}

export function checkPlaces(board: Board, fact: PlacesChecked, stamp: Stamp): Board {
  const { by } = stamp;
  const lesson = own(board.day.lessons, fact.lesson);
  if (!lesson || by === null) return board;
  return withRide(board, fact.lesson, (ride) =>
    lesson.places.reduce((next, place) => {
      if (!fact.places.includes(place.id) || place.horse === null) return next;
      const was = own(next.checks, place.id) ?? NOT_CHECKED;
      const mark = { op: stamp.id, by, at: tapTime(stamp), horse: place.horse, tack: place.tack };
      const marks = added(was[fact.check], mark);
      if (marks === was[fact.check]) return next;
      return { ...next, checks: put(next.checks, place.id, { ...was, [fact.check]: marks }) };
    }, ride),
  );
}

/** The day without what op `op` marked on its lessons. */
export function dropRideMarks(day: Day, op: string): Day {
  let { rides } = day;
  for (const [lesson, ride] of Object.entries(rides)) {
    const all = [...ride.mounted, ...ride.down, ...checksOf(ride)];
    if (!all.some((mark) => mark.op === op)) continue;
    const next = withoutOp(ride, op);
    const empty = next.mounted.length + next.down.length + checksOf(next).length === 0;
    rides = empty ? without(rides, lesson) : put(rides, lesson, next);
  }
  return rides === day.rides ? day : { ...day, rides };
}

function checksOf({ checks }: Ride): CheckMark[] {
  return Object.values(checks).flatMap((one) => PLACE_CHECKS.flatMap((check) => one[check]));
}

function withoutOp(ride: Ride, op: string): Ride {
  const others = <M extends { op: string }>(marks: readonly M[]): M[] =>
    marks.filter((mark) => mark.op !== op);
  const checks = Object.entries(ride.checks).map(
    ([place, { girth, instructor }]) =>
      [place, { girth: others(girth), instructor: others(instructor) }] as const,
  );
  return {
    mounted: others(ride.mounted),
    down: others(ride.down),
    checks: Object.fromEntries(
      checks.filter(([, { girth, instructor }]) => girth.length + instructor.length > 0),
    ),
  };
}

function withRide(board: Board, lesson: string, change: (ride: Ride) => Ride): Board {
  return withDay(board, (day) => {
    const was = own(day.rides, lesson) ?? NOTHING_TAPPED;
    const next = change(was);
    return next === was ? day : { ...day, rides: put(day.rides, lesson, next) };
  });
}

function tapTime(stamp: Stamp): number {
  return Math.min(stamp.tappedAt, stamp.at);
}

/** Earliest first; the op id settles a tie, so that taps commute. The latest are kept: the last one counts. */
function added<M extends RideMark | CheckMark>(marks: readonly M[], mark: M): readonly M[] & M[] {
  if (marks.some((one) => one.op === mark.op)) return marks as M[];
  return [...marks, mark].sort((a, b) => a.at - b.at || (a.op < b.op ? -1 : 1)).slice(-KEPT_RIDE_MARKS);
}
