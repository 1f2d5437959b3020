/**
 * A search for better moves in short slices, so that whatever else its thread is asked is answered in between. What it
 * finds is told a few times a second at most; a new search ends the one before.
 */
import type { PlanInput } from '#core/plan/model.ts';
import type { Rebalanced } from '#core/plan/rebalance/model.ts';
import { rebalanceSteps } from '#core/plan/rebalance/rebalance.ts';

/** A slice is over at the first step that ends after so long; a step takes a few ms. */
const SLICE_MS = 8;

/** Before the first is told, so that a better one can come, and from each to the next. */
export const TOLD_EVERY_MS = 300;

/** Answers hardly get better after this, and the hub box is small. */
const LONGEST_MS = 2000;

type SearchParts = {
  /** Monotonic ms. */
  readonly now: () => number;
  /** Runs `slice` once everything else that waits has had its turn. */
  readonly later: (slice: () => void) => void;
};

export type Found = { readonly answer: Rebalanced; readonly isDone: boolean };

export class MoveSearch {
  readonly #parts: SearchParts;
  /** Of the search under way: another number, another search. */
  #run = 0;

  constructor(parts: SearchParts) {
    this.#parts = parts;
  }

  /** `tell` hears of each better answer, and of the last one; `failed` of a bug. Neither after another `begin`. */
  begin(input: PlanInput, tell: (found: Found) => void, failed: (error: unknown) => void): void {
    const { now, later } = this.#parts;
    const run = (this.#run += 1);
    const began = now();
    const steps = rebalanceSteps(input);
    let told: Rebalanced | null = null;
    let toldAt = began;
    const slice = (): void => {
      if (this.#run !== run) return;
      try {
        const sliceBegan = now();
        let step = steps.next();
        while (!step.done && now() - sliceBegan < SLICE_MS) step = steps.next();
        const answer = step.value;
        const isDone = step.done === true || now() - began >= LONGEST_MS;
        const isBetter = answer !== told && answer.verdict === 'better' && now() - toldAt >= TOLD_EVERY_MS;
        if (isDone || isBetter) {
          tell({ answer, isDone });
          told = answer;
          toldAt = now();
        }
        if (!isDone) later(slice);
      } catch (error) {
        failed(error);
      }
    };
    later(slice);
  }
}
