/**
 * Independent of the planner: plays queues forward from the rules as people would read them, and holds what came out
 * against everything that binds. Slow and plain on purpose. Times are ms since 1970.
 */
import { forecast } from '#core/plan/forecast.ts';
import type { PlanInput, Work, Worker } from '#core/plan/model.ts';

type Run = { readonly by: string; readonly start: number; readonly end: number };
type Offer = {
  readonly worker: Worker;
  readonly work: Work;
  readonly id: string;
  readonly start: number;
  readonly begin: number;
  readonly own: boolean;
  readonly rank: number;
  readonly end: number;
};

export type Runs = ReadonlyMap<string, Run>;

/** Minutes each stage takes at pace 1. */
export type StageMinutes = Readonly<Record<'feet' | 'coat' | 'tack', number>>;

const MINUTE = 60_000;

/** Walking the aisle; common practice, no source. */
const METRES_A_SECOND = 1.1;

/**
 * Whoever can begin first goes on, with their own work before nobody's; what two can begin at once falls to the first
 * named. Going to another horse takes the walk. Only for inputs without stages begun, learned habits, further moments
 * between stages, or duties beside a horse still to be made ready.
 */
export function playedForward(input: PlanInput, stageMinutes: StageMinutes): Runs {
  const runs = new Map<string, Run>();
  const clock = new Map(input.workers.map((worker) => [worker.id, Math.max(worker.from, input.now)]));
  const standsAt = new Map<string, number>();
  // How urgent a piece is, is what the board shows.
  const shown = Object.values(forecast(input, { draws: 1 }).preps).flatMap((prep) => prep.pieces);
  const urgency = new Map(shown.map((piece) => [piece.id, piece.neededBy]));

  const walk = (worker: Worker, work: Work): number => {
    const from = standsAt.get(worker.id) ?? work.metres;
    return (Math.abs(from - work.metres) / METRES_A_SECOND) * 1_000;
  };

  /** When this person could set out for it. */
  const startFor = (worker: Worker, work: Work, index: number): number | null => {
    const piece = work.pieces[index];
    const before = work.pieces[index - 1];
    const ready = before ? runs.get(before.id)?.end : Math.max(input.now, work.freeFrom ?? 0);
    if (!piece || ready === undefined || !piece.asks.every((one) => worker.clearances.includes(one)))
      return null;
    const length = walk(worker, work) + stageMinutes[piece.stage] * MINUTE * worker.pace;
    let start = Math.max(ready, clock.get(worker.id) ?? 0, work.notBefore ?? 0);
    for (const duty of worker.busy.toSorted((a, b) => a.from - b.from)) {
      if (start < duty.until && start + length > duty.from) start = duty.until;
    }
    return worker.until !== null && start + length > worker.until ? null : start;
  };

  for (;;) {
    let best: Offer | null = null;
    for (const worker of input.workers) {
      for (const work of input.works) {
        const index = work.pieces.findIndex((piece) => !runs.has(piece.id));
        const piece = work.pieces[index];
        if (!piece) continue;
        const owner = input.workers.find((one) => one.queue.includes(piece.id));
        const start = startFor(worker, work, index);
        const own = owner === worker;
        if (start === null || (!own && owner && startFor(owner, work, index) !== null)) continue;
        const rank = own ? worker.queue.indexOf(piece.id) : (urgency.get(piece.id) ?? 0);
        const begin = start + walk(worker, work);
        const end = begin + stageMinutes[piece.stage] * MINUTE * worker.pace;
        const offer = { worker, work, id: piece.id, start, begin, own, rank, end };
        if (!best || isBefore(offer, best)) best = offer;
      }
    }
    if (!best) return runs;
    runs.set(best.id, { by: best.worker.id, start: best.begin, end: best.end });
    clock.set(best.worker.id, best.end);
    standsAt.set(best.worker.id, best.work.metres);
  }

  function isBefore(a: Offer, b: Offer): boolean {
    if (a.start !== b.start) return a.start < b.start;
    if (a.own !== b.own) return a.own;
    return a.worker === b.worker && a.rank < b.rank;
  }
}

/** Everything wrong with `runs`, in words; nothing: they could happen. */
export function broken(input: PlanInput, runs: Runs): string[] {
  const wrong: string[] = [];
  const horseOf = new Map(input.works.flatMap((work) => work.pieces.map((piece) => [piece.id, work.horse])));
  for (const work of input.works) {
    let end = Math.max(work.freeFrom ?? -Infinity, work.notBefore ?? -Infinity);
    let isOpen = false;
    for (const piece of work.pieces) {
      const run = runs.get(piece.id);
      if (!run) {
        isOpen = true;
        continue;
      }
      if (isOpen) wrong.push(`${piece.id} is done before a stage before it`);
      if (!piece.underWay && run.start < end)
        wrong.push(`${piece.id} begins before its horse is free for it`);
      end = run.end;
      const worker = input.workers.find((one) => one.id === run.by);
      if (!worker) wrong.push(`${piece.id} is done by nobody known`);
      else {
        if (!piece.asks.every((one) => worker.clearances.includes(one))) {
          wrong.push(`${run.by} is not cleared for ${piece.id}`);
        }
        if (!piece.underWay && run.start < worker.from)
          wrong.push(`${run.by} is not here yet for ${piece.id}`);
        if (!piece.underWay && worker.until !== null && run.end > worker.until) {
          wrong.push(`${run.by} has gone before the end of ${piece.id}`);
        }
        for (const duty of worker.busy) {
          const isInLesson = run.start < duty.until && run.end > duty.from;
          if (isInLesson && duty.horse !== horseOf.get(piece.id) && !piece.underWay) {
            wrong.push(`${run.by} is in a lesson during ${piece.id}`);
          }
        }
      }
    }
  }
  for (const worker of input.workers) {
    const mine = [...runs]
      .filter(([, run]) => run.by === worker.id)
      .sort(([, a], [, b]) => a.start - b.start);
    mine.forEach(([id, run], i) => {
      const before = mine[i - 1];
      if (before && run.start < before[1].end)
        wrong.push(`${worker.id} is on ${before[0]} and ${id} at once`);
    });
  }
  return wrong;
}
