/** Changes to queues: making them, finding those between two plans, and leaving out those that do nothing. */
import type { Queues } from './trial.ts';

/** Pieces of one work, in order, go to `to` in front of piece `before` (-1: to the end). As a `workMoved` fact does. */
export type Change = { readonly pieces: readonly number[]; readonly to: number; readonly before: number };

const END = -1;

export function applied(queues: Queues, { pieces, to, before }: Change): Queues {
  return queues.map((queue, w) => {
    const touched = queue.some((p) => pieces.includes(p));
    if (w !== to) return touched ? queue.filter((p) => !pieces.includes(p)) : queue;
    const rest = touched ? queue.filter((p) => !pieces.includes(p)) : queue;
    const at = before === END ? -1 : rest.indexOf(before);
    return rest.toSpliced(at < 0 ? rest.length : at, 0, ...pieces);
  });
}

export function appliedAll(queues: Queues, changes: readonly Change[]): Queues {
  return changes.reduce(applied, queues);
}

/**
 * Changes after which each worker has the pieces of `wanted` in that order, with as few pieces touched on each queue as
 * can be. Pieces that `wanted` does not name stay where they are.
 */
export function changesTo(queues: Queues, wanted: Queues, workOf: Int32Array): Change[] {
  return wanted.flatMap((list, w) => {
    const stays = new Set(longestRise(list, queues[w] ?? []));
    const changes: Change[] = [];
    // From the end, so that the piece to go in front of is in its place.
    for (let i = list.length - 1; i >= 0; i -= 1) {
      const p = list[i] ?? END;
      if (stays.has(p)) continue;
      const pieces = [p];
      const next = list[i + 1] ?? END;
      while (i > 0 && isMovedToo(list[i - 1] ?? END, p)) pieces.unshift(list[--i] ?? END);
      changes.push({ pieces, to: w, before: next });
    }
    return changes;

    function isMovedToo(other: number, p: number): boolean {
      return !stays.has(other) && workOf[other] === workOf[p];
    }
  });
}

/** The longest part of `list` that stands in `queue` in the same order. */
function longestRise(list: readonly number[], queue: readonly number[]): number[] {
  const place = new Map(queue.map((p, i) => [p, i]));
  const known = list.filter((p) => place.has(p));
  // best[i]: the longest run that ends with known[i].
  const best: number[][] = [];
  for (const [i, p] of known.entries()) {
    let before: number[] = [];
    for (let j = 0; j < i; j += 1) {
      const run = best[j] ?? [];
      if ((place.get(known[j] ?? END) ?? 0) < (place.get(p) ?? 0) && run.length > before.length) before = run;
    }
    best.push([...before, p]);
  }
  return best.reduce<number[]>((longest, run) => (run.length > longest.length ? run : longest), []);
}

/**
 * As few of `changes` as do as well: whole stretches are left out first, then single ones, while `isAsGood` holds
 * (Zeller and Hildebrandt, Simplifying and Isolating Failure-Inducing Input, 2002). Pauses after every `tries` tries.
 */
export function* pruned(
  changes: readonly Change[],
  isAsGood: (changes: readonly Change[]) => boolean,
  tries: number,
): Generator<undefined, readonly Change[]> {
  let kept = changes;
  let tried = 0;
  for (let size = kept.length; size >= 1;) {
    let left = false;
    for (let at = 0; at < kept.length;) {
      const without = kept.toSpliced(at, size);
      if (isAsGood(without)) {
        kept = without;
        left = true;
      } else at += size;
      if (++tried % tries === 0) yield;
    }
    size = size === 1 && left ? 1 : size >> 1;
  }
  return kept;
}
