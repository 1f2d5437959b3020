/** "Would it be ready?": the change made on a copy of the board, and that board's forecast read. */
import { own } from '../../barn/basics.ts';
import type { Lesson } from '../../barn/lesson.ts';
import { asks, isCleared } from '../../barn/stage.ts';
import type { Board, PlaceRef, Prep } from '../../day/board.ts';
import { evolve } from '../../day/evolve.ts';
import { horseFreeFrom, lessonEnd, lessonsOf, openStages, prepOf, rampTime } from '../../day/preps.ts';
import { MINUTE_MS } from '../../time/units.ts';
import { DRAWS, forecast } from '../forecast.ts';
import { planInput } from '../input.ts';
import type { Learned } from '../learned.ts';
import type { Forecast, PlanInput, Worker } from '../model.ts';
import type { Readiness, ReadyChance, StandInsTaken } from './model.ts';
import { tackFor } from './pair.ts';
import { overlap, refOf, seatsOf, seatKey, type Seat } from './seats.ts';
import { freeEnd } from './work.ts';

export type Trials = {
  /** What the barn has learned of its stage times; null: nothing yet. */
  readonly learned: Learned | null;
  /** How often the work is played forward for a whole option. */
  readonly draws: number;
};

const UNKNOWN: Readiness = { ready: null, chance: null, spareMs: null };

/** Readiness of each prep towards its ramp time. */
function readinessOf({ preps }: Forecast): Map<string, Readiness> {
  return new Map(
    Object.values(preps).map(({ prep, ready, chance, spareMs }) => [
      prep,
      { ready, chance: ready === null ? null : chance, spareMs },
    ]),
  );
}

/** The board after `taken`, as the hub would make it at `now`. */
export function boardAfter(board: Board, now: number, taken: StandInsTaken): Board {
  return evolve(board, {
    seq: 1,
    at: now,
    id: 'trial',
    device: 'trial',
    by: null,
    tappedAt: now,
    facts: [taken],
    why: null,
  });
}

/**
 * Readiness by trying changes on a copy of `board`. A whole option is forecast as it is, with its work given out.
 *
 * Of a change alone, of which there are hundreds, only the soonest is worked out: each stage by whoever could end it
 * first, dropping what they have. The horse is taken out of lessons it would have to leave and, where it would be late
 * all the same, out of everything else still to come, for a chain may free it. So alone a horse is never called late
 * that could be in time within some option; whether it is, the whole option shows.
 */
export function readinessByTrial(board: Board, now: number, trials: Partial<Trials> = {}): ReadyChance {
  const { learned, draws } = { learned: null, draws: DRAWS, ...trials };
  type Tried = { readonly board: Board; readonly readiness: ReadonlyMap<string, Readiness> };
  const tried = new WeakMap<StandInsTaken, Tried>();
  const look = (next: Board): Tried => ({
    board: next,
    readiness: readinessOf(forecast(planInput(next, now, learned), { draws })),
  });
  let asItIs: Tried | null = null;
  const seats = seatsOf(board, now, []);
  const hands = handsNow(planInput(board, now, learned));

  const alone = (horse: string, seat: Seat): Readiness => {
    const record = own(board.barn.horses, horse);
    if (!record) return UNKNOWN;
    const tack = tackFor(board, seat, record)?.id ?? null;
    const others = (seats.kept.get(horse) ?? []).filter((one) => one.movable && one.key !== seat.key);
    const attempt = (freed: readonly Seat[]): Readiness => {
      const changes = [
        ...freed.map((one) => ({ ...refOf(one), horse: null, tack: null })),
        { ...refOf(seat), horse, tack },
      ];
      const next = boardAfter(board, now, { kind: 'standInsTaken', changes, work: [] });
      const prep = prepOf(next.day, seat.lesson.id, seat.place.id);
      return prep ? soonest(next, prep, seat.lesson, hands, now) : UNKNOWN;
    };
    const leaving = others.filter((one) => overlap(one.lesson, seat.lesson));
    const first = attempt(leaving);
    if (first.spareMs === null || first.spareMs >= 0 || others.length === leaving.length) return first;
    return sooner(first, attempt(others));
  };

  return (horse, place, taken) => {
    if (taken) {
      const known = tried.get(taken) ?? look(boardAfter(board, now, taken));
      tried.set(taken, known);
      return read(known, place);
    }
    const seat = seats.byKey.get(seatKey(place));
    if (!seat) return UNKNOWN;
    if (seat.place.horse !== horse) return alone(horse, seat);
    asItIs ??= look(board);
    return read(asItIs, place);
  };

  function read(known: Tried, ref: PlaceRef): Readiness {
    const prep = prepOf(known.board.day, ref.lesson, ref.place);
    const readiness = prep && known.readiness.get(prep.id);
    const lesson = own(known.board.day.lessons, ref.lesson);
    return prep && readiness && lesson ? forLesson(known.board, prep, lesson, readiness) : UNKNOWN;
  }
}

/** A person, and when they are done with what they are on. */
type Hand = { readonly worker: Worker; readonly from: number };

function handsNow(input: PlanInput): Hand[] {
  const underWay = input.works.flatMap((work) => work.pieces.filter((piece) => piece.underWay));
  return input.workers.map((worker) => {
    const piece = underWay.find((one) => one.underWay?.by === worker.id);
    if (!piece?.underWay) return { worker, from: worker.from };
    const end = Math.max(input.now, piece.underWay.since + piece.lengthMs * worker.pace);
    return { worker, from: Math.max(worker.from, end) };
  });
}

function soonest(board: Board, prep: Prep, lesson: Lesson, hands: readonly Hand[], now: number): Readiness {
  const { barn, day } = board;
  const ramp = rampTime(day, prep, barn.rules);
  const horse = own(barn.horses, prep.horse);
  if (ramp === null || !horse) return UNKNOWN;
  let at = Math.max(now, horseFreeFrom(day, prep) ?? now);
  for (const stage of openStages(barn, prep)) {
    const lengthMs = barn.rules.stageMinutes[stage] * MINUTE_MS;
    const ends = hands
      .filter(({ worker }) => isCleared(worker.clearances, asks(horse.experiencedFor, stage)))
      .flatMap(({ worker, from }) => freeEnd(worker, Math.max(at, from), lengthMs * worker.pace) ?? []);
    if (ends.length === 0) return UNKNOWN;
    at = Math.min(...ends);
  }
  const ready = Math.round(at);
  return forLesson(board, prep, lesson, { ready, chance: null, spareMs: ramp - ready });
}

/** For a later lesson on the same prep: the horse comes from the one before, and is there when that is over. */
function forLesson({ day }: Board, prep: Prep, lesson: Lesson, readiness: Readiness): Readiness {
  if (readiness.ready === null || prep.places[0]?.lesson === lesson.id) return readiness;
  const before = lessonsOf(day, prep).filter((one) => one.start < lesson.start);
  const ready = Math.max(readiness.ready, ...before.map(lessonEnd));
  return { ...readiness, ready, spareMs: lesson.start - ready };
}

function sooner(a: Readiness, b: Readiness): Readiness {
  return b.spareMs !== null && b.spareMs > (a.spareMs ?? -Infinity) ? b : a;
}
