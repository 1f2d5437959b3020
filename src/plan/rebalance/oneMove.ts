/** Single moves that could help: of work that a late horse waits for, to anybody cleared for it, at any place. */
import { NOBODY, usualMs } from '../simulate/shop.ts';
import { applied, type Change } from './moves.ts';
import { range } from './range.ts';
import type { Queues, Trial, Value } from './trial.ts';

const END = -1;

/** A plan that some changes lead to. */
export type State = {
  readonly changes: readonly Change[];
  readonly queues: Queues;
  readonly value: Value;
};

/**
 * Changes to `queues` worth a try, the most promising first; they need the last run of `trial` to be of `queues`. A move
 * can only help if it touches what a late horse or a late feet check waited for: such pieces, alone or with what is
 * around them on the same horse.
 */
export function changesWorthATry(trial: Trial, queues: Queues): Change[] {
  const { shop } = trial;
  const rests: Change[][] = [];
  const parts: Change[][] = [];
  const tried = new Set<string>();
  for (const p of waitedFor(trial)) {
    const j = shop.workOf[p] ?? 0;
    const open = range(shop.firstOf[j] ?? 0, shop.firstOf[j + 1] ?? 0).filter((x) => isOpen(trial, x));
    for (const first of open.filter((x) => x <= p)) {
      for (const last of open.filter((x) => x >= p).toReversed()) {
        if (tried.has(`${first}-${last}`)) continue;
        tried.add(`${first}-${last}`);
        const pieces = open.filter((x) => x >= first && x <= last);
        const changes = [...placings(trial, queues, pieces)]
          .map((change) => ({ change, end: roughEnd(trial, change) }))
          .sort((a, b) => a.end - b.end)
          .map(({ change }) => change);
        (last === open.at(-1) ? rests : parts).push(changes);
      }
    }
  }
  // The best place for each, then the second best, and so on.
  return byRank([...rests, ...parts]);
}

function byRank(lists: readonly (readonly Change[])[]): Change[] {
  const longest = Math.max(0, ...lists.map((list) => list.length));
  return range(0, longest).flatMap((rank) => lists.flatMap((list) => list[rank] ?? []));
}

/** When the pieces would be done if nothing else changed its time, ms after now. */
function roughEnd({ shop, play }: Trial, { pieces, to, before }: Change): number {
  const first = pieces[0] ?? 0;
  const j = shop.workOf[first] ?? 0;
  let at = Math.max(shop.freeAt[j] ?? 0, shop.takeUpAt[j * shop.workerCount + to] ?? 0);
  if (first > (shop.firstOf[j] ?? 0)) at = Math.max(at, play.end[first - 1] ?? 0);
  let free = shop.from[to] ?? 0;
  if (before !== END) free = (play.start[before] ?? 0) - (play.lead[before] ?? 0);
  else {
    for (let p = 0; p < shop.pieceCount; p += 1) {
      if (play.by[p] === to && !pieces.includes(p)) free = Math.max(free, play.end[p] ?? 0);
    }
  }
  return pieces.reduce((end, p) => end + usualMs(shop, p, to), Math.max(at, free));
}

function isOpen({ begunBy }: Trial, p: number): boolean {
  return begunBy[p] === NOBODY;
}

/** Every place in every able person's queue, without parting the stages of another horse unless it is one stage. */
function* placings(trial: Trial, queues: Queues, pieces: readonly number[]): Generator<Change> {
  const { shop } = trial;
  for (const [to, queue] of queues.entries()) {
    if (!pieces.every((p) => shop.cleared[p * shop.workerCount + to] === 1)) continue;
    const rest = queue.filter((p) => !pieces.includes(p));
    for (let i = 0; i <= rest.length; i += 1) {
      const before = rest[i] ?? END;
      const isWithin = i > 0 && before !== END && shop.workOf[rest[i - 1] ?? 0] === shop.workOf[before];
      if (isWithin && pieces.length > 1) continue;
      const change = { pieces, to, before };
      if (isSame(queue, pieces, rest, i)) continue;
      yield change;
    }
  }
}

function isSame(
  queue: readonly number[],
  pieces: readonly number[],
  rest: readonly number[],
  at: number,
): boolean {
  if (rest.length + pieces.length !== queue.length) return false;
  return rest.toSpliced(at, 0, ...pieces).every((p, i) => queue[i] === p);
}

/** Pieces that late horses and late feet checks waited for in the last run, those of the latest horse first. */
function waitedFor(trial: Trial): readonly number[] {
  const { shop, play, options } = trial;
  const ends: { p: number; late: number }[] = [];
  for (const j of range(0, shop.workCount)) {
    const pieces = range(shop.firstOf[j] ?? 0, shop.firstOf[j + 1] ?? 0);
    const late = trial.lateness(j);
    const last = pieces.findLast((p) => (play.end[p] ?? Infinity) < Infinity) ?? pieces[0];
    if (late > -options.spareMs && last !== undefined) ends.push({ p: last, late });
    for (const p of pieces) if (trial.feetCost(p) > 0) ends.push({ p, late: trial.feetCost(p) });
  }
  ends.sort((a, b) => b.late - a.late);
  const found = new Set<number>();
  for (const { p } of ends) {
    const next = [p];
    for (let x = next.pop(); x !== undefined; x = next.pop()) {
      if (found.has(x)) continue;
      found.add(x);
      next.push(...causesOf(trial, x));
    }
  }
  return [...found].filter((p) => isOpen(trial, p));
}

/** What the start of `p` waited for: the stage before it, or what its doer did before; both when either would do. */
function causesOf({ shop, play, doneBefore }: Trial, p: number): number[] {
  const j = shop.workOf[p] ?? 0;
  const stage = p > (shop.firstOf[j] ?? 0) ? p - 1 : NOBODY;
  const own = doneBefore[p] ?? NOBODY;
  const from = (play.start[p] ?? Infinity) - (play.lead[p] ?? 0);
  // Not at all: whatever holds it is found from the stage before it.
  if (from === Infinity) return stage === NOBODY ? [] : [stage];
  const ready = stage === NOBODY ? (shop.freeAt[j] ?? 0) : (play.end[stage] ?? 0);
  const causes: number[] = [];
  if (stage !== NOBODY && ready >= from) causes.push(stage);
  // Later than the horse was ready: busy, or no room before a lesson.
  if (own !== NOBODY && (from > ready || (play.end[own] ?? 0) >= from)) causes.push(own);
  return causes;
}

/** What one more change makes of a state. */
export function after(trial: Trial, state: State, change: Change): State {
  const queues = applied(state.queues, change);
  return { changes: [...state.changes, change], queues, value: trial.run(queues) };
}
