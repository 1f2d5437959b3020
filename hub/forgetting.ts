/**
 * People leave the hub: erased while it runs, or with days that lie long ago. One after the other, since both write the days'
 * files anew.
 */
import type { Forgotten } from '#core/day/forget.ts';
import { erasingIn, noteErasing } from './storage/erasing.ts';
import { forgetOldDays } from './storage/retention.ts';

type ForgettingParts = {
  /** Null: kept in memory only. */
  readonly folder: string | null;
  /** The records themselves; `run` is the new name of the run of numbers. Rejects when not all of it was done. */
  readonly erase: (people: readonly Forgotten[], run: string) => Promise<void>;
  /** Whatever else keeps something of people. Safe to ask again. */
  readonly others: readonly ((people: readonly Forgotten[]) => Promise<void>)[];
  readonly newRun: () => string;
  /** People are gone from days put by. */
  readonly done: () => void;
  readonly log: (line: string) => void;
};

/** Days in `daysFolder` that lie more than `keepDays` before `today` lose their people. */
type OldDays = { readonly daysFolder: string; readonly today: string; readonly keepDays: number };

export class Forgetting {
  readonly #parts: ForgettingParts;
  #last: Promise<unknown> = Promise.resolve();

  constructor(parts: ForgettingParts) {
    this.#parts = parts;
  }

  /** Puts this person on the list of those to be erased. The answer takes them off again. */
  async note(person: Forgotten): Promise<() => Promise<void>> {
    const { folder } = this.#parts;
    if (folder === null) return async () => {};
    const before = await erasingIn(folder);
    await noteErasing(folder, [...before, person]);
    return () => noteErasing(folder, before);
  }

  /**
   * Erases whoever is on the list, and `more`, from everything. False: not all of it could be done, and the next start tries
   * again. Never rejects.
   */
  erase(more: readonly Forgotten[] = []): Promise<boolean> {
    return this.#next(async () => {
      const { folder, erase, others, newRun, done } = this.#parts;
      const people = folder === null ? more : await erasingIn(folder);
      if (people.length === 0) return;
      for (const other of others) await other(people);
      await erase(people, newRun());
      if (folder !== null) await noteErasing(folder, []);
      done();
    });
  }

  /** Never rejects. */
  oldDays({ daysFolder, today, keepDays }: OldDays): Promise<boolean> {
    return this.#next(async () => {
      await forgetOldDays(daysFolder, today, keepDays);
    });
  }

  /** Resolves when nothing of it is under way. */
  async settle(): Promise<void> {
    await this.#last;
  }

  #next(work: () => Promise<void>): Promise<boolean> {
    const turn = this.#last.then(work).then(
      () => true,
      (error: unknown) => {
        this.#parts.log(`Could not take people out of the files: ${String(error)}`);
        return false;
      },
    );
    this.#last = turn;
    return turn;
  }
}
