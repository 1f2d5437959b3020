/** Days that are over are put by, each in a file of its own, and what they teach goes to the planner. */
import type { Board } from '#core/day/board.ts';
import { isEmptyDay } from '#core/day/emptyDay.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Entry } from '#core/day/ops.ts';
import type { SequenceState } from '#core/day/sequence.ts';
import { keptDay, type ClosedDay } from './storage/keptDay.ts';
import type { Storage } from './storage/storage.ts';

/** `dayFrom`: the open day's first entry, as far as they are known; null: no day is open. */
export type OpenSince = { readonly board: Board; readonly dayFrom: number | null };

/** Entries of a day that was open before the journal began are not known: of that day it has what comes after `state`. */
export function openSince({ board, seq }: SequenceState, dayFrom: number | null): OpenSince {
  return { board, dayFrom: dayFrom ?? (board.day.date === null ? null : seq + 1) };
}

/**
 * The days that `entries` close, from `start` on, and how things stand after them.
 */
export function closedBy(
  start: OpenSince,
  entries: readonly Entry[],
): { closed: ClosedDay[]; dayFrom: number | null } {
  let { board, dayFrom } = start;
  const opens = (entry: Entry): boolean => entry.facts.some((fact) => fact.kind === 'dayOpened');
  if (!entries.some(opens)) return { closed: [], dayFrom };
  const closed: ClosedDay[] = [];
  for (const entry of entries) {
    if (opens(entry)) {
      const { date } = board.day;
      const isLeft =
        date !== null && entry.facts.some((fact) => fact.kind === 'dayOpened' && fact.date < date);
      if (date !== null && dayFrom !== null && !isLeft && !isEmptyDay(board.day)) {
        closed.push({
          day: { ...board.day, date },
          from: dayFrom,
          to: entry.seq - 1,
          rules: board.barn.rules,
        });
      }
      dayFrom = entry.seq;
    }
    board = evolve(board, entry);
  }
  return { closed, dayFrom };
}

type DaysParts = {
  readonly storage: Pick<Storage, 'entries' | 'keepDay'>;
  /** Another day has been put by. */
  readonly kept: () => void;
  readonly log: (line: string) => void;
};

/** Puts days by in the background, one after the other; what fails is tried again with the next. */
export class Days {
  readonly #parts: DaysParts;
  #waiting: ClosedDay[] = [];
  #working: Promise<void> = Promise.resolve();

  constructor(parts: DaysParts) {
    this.#parts = parts;
  }

  add(closed: readonly ClosedDay[]): void {
    if (closed.length === 0) return;
    this.#waiting.push(...closed);
    void this.settle();
  }

  /** True when every day so far is on disk. Tries those again that failed. */
  settle(): Promise<boolean> {
    this.#working = this.#working.then(() => this.#work());
    return this.#working.then(() => this.#waiting.length === 0);
  }

  async #work(): Promise<void> {
    for (let next = this.#waiting[0]; next; next = this.#waiting[0]) {
      try {
        await this.#keep(next);
      } catch (error) {
        this.#parts.log(`Could not put ${next.day.date} by: ${String(error)}`);
        return;
      }
      this.#waiting.shift();
      this.#parts.kept();
    }
  }

  async #keep(closed: ClosedDay): Promise<void> {
    const { storage } = this.#parts;
    await storage.keepDay(keptDay(closed, await storage.entries(closed.from, closed.to)));
  }
}
