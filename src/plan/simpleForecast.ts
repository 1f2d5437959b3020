/**
 * The forecast without chance: the queues played forward once, every stage at the barn's minutes and the person's pace.
 * What `forecast` must do better than, and what the hub falls back on should that one ever fail.
 */
import { isCleared } from '../barn/stage.ts';
import { MINUTE_MS } from '../time/units.ts';
import { fitIn, type Preparing } from './after/fitIn.ts';
import { lessonForecast } from './lessonForecast.ts';
import type {
  Forecast,
  HandsForecast,
  Piece,
  PieceForecast,
  PlanInput,
  PrepForecast,
  Unplanned,
  Work,
  Worker,
} from './model.ts';

/** A stage that has run past its usual time is taken to need this much more, at the least. */
const AT_LEAST_LEFT_MS = MINUTE_MS;

type Run = { by: string; given: boolean; start: number; end: number };

/** Times are ms since 1970; `asOf` is the input's now. Deterministic; never throws. */
export function simpleForecast(input: PlanInput): Forecast {
  const needed = new Map(input.works.flatMap((work) => [...neededBy(work)]));
  const runs = playForward(input, needed);
  const preps = input.works.map((work) => prepForecast(work, needed, runs, input));
  const ready = new Map(
    preps.map((prep) => [prep.prep, Float64Array.of((prep.ready ?? Infinity) - input.now)] as const),
  );
  return {
    asOf: input.now,
    preps: Object.fromEntries(preps.map((prep) => [prep.prep, prep])),
    after: fitIn(input, preparing(input, runs)),
    lessons: Object.fromEntries(input.lessons.map((one) => [one.id, lessonForecast(one, input, ready)])),
    hands: Object.fromEntries(input.workers.map((w) => [w.id, handsForecast(w, needed, runs)])),
    leftOut: [...input.leftOut],
  };
}

function preparing({ works }: PlanInput, runs: ReadonlyMap<string, Run>): Preparing[] {
  return works.flatMap(({ horse, pieces }) =>
    pieces.flatMap(({ id }) => {
      const run = runs.get(id);
      return run ? { by: run.by, horse, from: run.start, until: run.end } : [];
    }),
  );
}

/** Latest end of each open piece that still meets the ramp time, in ms, backwards from it. */
export function neededBy(work: Work): Map<string, number> {
  const times = new Map<string, number>();
  let end = work.rampTime;
  for (const piece of work.pieces.toReversed()) {
    times.set(piece.id, end);
    end -= piece.lengthMs;
  }
  return times;
}

function playForward(input: PlanInput, needed: ReadonlyMap<string, number>): Map<string, Run> {
  const runs = new Map<string, Run>();
  const workOf = new Map(input.works.flatMap((work) => work.pieces.map((piece) => [piece.id, work])));
  const pieces = new Map(input.works.flatMap((work) => work.pieces.map((piece) => [piece.id, piece])));
  const owned = new Map<string, string>();
  for (const worker of input.workers) for (const id of worker.queue) owned.set(id, worker.id);
  const clock = new Map(input.workers.map((worker) => [worker.id, worker.from]));

  for (const piece of pieces.values()) {
    const worker = input.workers.find((w) => w.id === piece.underWay?.by);
    if (!worker || !piece.underWay) continue;
    const spent = input.now - piece.underWay.since;
    const left = Math.max(piece.lengthMs * worker.pace - spent, AT_LEAST_LEFT_MS);
    runs.set(piece.id, { by: worker.id, given: true, start: piece.underWay.since, end: input.now + left });
    clock.set(worker.id, input.now + left);
  }

  /** When the piece can be started at the earliest; null while a stage before it has no end yet. */
  const startable = (piece: Piece): number | null => {
    const work = workOf.get(piece.id);
    if (!work) return null;
    const before = work.pieces[work.pieces.indexOf(piece) - 1];
    const ready = before ? runs.get(before.id)?.end : (work.freeFrom ?? input.now);
    return ready === undefined ? null : Math.max(ready, input.now);
  };
  const open = (): Piece[] => [...pieces.values()].filter((piece) => !runs.has(piece.id));

  for (;;) {
    const offers = input.workers.flatMap((worker) => offer(worker) ?? []);
    const first = offers.reduce<Offer | null>((best, o) => (best && !isSooner(o, best) ? best : o), null);
    if (!first) return runs;
    runs.set(first.piece.id, {
      by: first.worker.id,
      given: first.given,
      start: first.start,
      end: first.end,
    });
    clock.set(first.worker.id, first.end);
  }

  /** The piece this person would take next: their own first, in order, then the most urgent of nobody's. */
  function offer(worker: Worker): Offer | null {
    const at = clock.get(worker.id) ?? worker.from;
    const left = open();
    const fits = (piece: Piece, given: boolean): Offer | null => {
      const from = startable(piece);
      if (from === null || !isCleared(worker.clearances, piece.asks)) return null;
      const start = freeSlot(worker, Math.max(at, from), piece.lengthMs * worker.pace);
      return start === null
        ? null
        : { worker, piece, given, start, end: start + piece.lengthMs * worker.pace, rank: 0 };
    };
    const mine = worker.queue.flatMap((id, rank) => {
      const piece = pieces.get(id);
      const one = piece && !runs.has(id) ? fits(piece, true) : null;
      return one ? [{ ...one, rank }] : [];
    });
    if (mine.length > 0) return earliest(mine);
    // Only work that nobody who can be counted on has been given.
    const nobodys = left
      .filter((piece) => !canFinish(owned.get(piece.id), piece))
      .flatMap((piece) => fits(piece, false) ?? [])
      .map((one) => ({ ...one, rank: needed.get(one.piece.id) ?? 0 }));
    return earliest(nobodys);
  }

  /** Whether the person a piece was given to is there and cleared to do it before they leave. */
  function canFinish(owner: string | undefined, piece: Piece): boolean {
    const worker = input.workers.find((w) => w.id === owner);
    if (!worker || !isCleared(worker.clearances, piece.asks)) return false;
    const at = clock.get(worker.id) ?? worker.from;
    return freeSlot(worker, at, piece.lengthMs * worker.pace) !== null;
  }
}

type Offer = { worker: Worker; piece: Piece; given: boolean; start: number; end: number; rank: number };

/** The one that can start first; among equals the first in the queue, or the most urgent. */
function earliest(offers: readonly Offer[]): Offer | null {
  return offers.reduce<Offer | null>(
    (best, o) => (best && (best.start - o.start || best.rank - o.rank) <= 0 ? best : o),
    null,
  );
}

function isSooner(a: Offer, b: Offer): boolean {
  if (a.start !== b.start) return a.start < b.start;
  if (a.given !== b.given) return a.given;
  return a.worker.id < b.worker.id;
}

/** First start from `at` on that leaves `length` free of lesson duties and before going home; null: none today. */
function freeSlot(worker: Worker, at: number, length: number): number | null {
  let start = at;
  for (const { from, until } of worker.busy) {
    if (start + length > from && start < until) start = until;
  }
  return worker.until !== null && start + length > worker.until ? null : start;
}

function prepForecast(
  work: Work,
  needed: ReadonlyMap<string, number>,
  runs: ReadonlyMap<string, Run>,
  input: PlanInput,
): PrepForecast {
  const pieces = work.pieces.map((piece): PieceForecast => {
    const run = runs.get(piece.id);
    return {
      id: piece.id,
      stage: piece.stage,
      neededBy: Math.round(needed.get(piece.id) ?? work.rampTime),
      by: run?.by ?? null,
      given: run?.given ?? false,
      start: run ? Math.round(run.start) : null,
      end: run ? Math.round(run.end) : null,
    };
  });
  const last = pieces.at(-1);
  const stuck = work.pieces.find((piece) => !runs.has(piece.id));
  const ready = stuck ? null : (last?.end ?? Math.max(input.now, work.freeFrom ?? input.now));
  return {
    prep: work.prep,
    rampTime: work.rampTime,
    feetBy: work.feetBy,
    ready,
    p10: ready,
    p90: ready,
    chance: ready !== null && ready <= work.rampTime ? 1 : 0,
    spareMs: ready === null ? null : work.rampTime - ready,
    unplanned: stuck ? whyNot(stuck, input.workers) : null,
    pieces,
    totalFloatMs: null,
    freeFloatMs: null,
    extras: false,
  };
}

function whyNot(piece: Piece, workers: readonly Worker[]): Unplanned {
  if (workers.length === 0) return 'nobodyHere';
  return workers.some((worker) => isCleared(worker.clearances, piece.asks)) ? 'nobodyFree' : 'nobodyCleared';
}

function handsForecast(
  worker: Worker,
  needed: ReadonlyMap<string, number>,
  runs: ReadonlyMap<string, Run>,
): HandsForecast {
  const mine = [...runs].filter(([, run]) => run.by === worker.id && run.given);
  const worst = mine
    .map(([id, run]) => ({ id, lateMs: run.end - (needed.get(id) ?? run.end) }))
    .reduce<{ id: string; lateMs: number } | null>(
      (most, one) => (most && most.lateMs >= one.lateMs ? most : one),
      null,
    );
  const behind = worst && worst.lateMs > 0 ? worst : null;
  return {
    volunteer: worker.id,
    behindMs: Math.round(behind?.lateMs ?? 0),
    because: behind?.id ?? null,
    doneAt: mine.length > 0 ? Math.round(Math.max(...mine.map(([, run]) => run.end))) : null,
    since: null,
    heldUp: null,
    totalFloatMs: null,
    freeFloatMs: null,
  };
}
