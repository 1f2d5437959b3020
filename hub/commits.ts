/**
 * Group commit: while one write is under way, what comes in gathers, and the next write takes all of it. One wait for
 * the disk then serves many taps.
 */

export type CommitParts<T> = {
  /** Resolves when all of `items` are on disk. */
  write(items: readonly T[]): Promise<void>;
  /** Called after each write, in order. */
  written(items: readonly T[]): void;
  /** A write has failed. `lost`: its items and all that waited behind it, in order; none of them is written any more. */
  failed(error: unknown, lost: readonly T[]): void;
  /** A write takes longer than `slowAfterMs`; it may still come to an end, good or bad. */
  hangs(): void;
  /** A write that hung has ended well; called after its `written`. */
  goesOn(): void;
  readonly slowAfterMs: number;
};

export class Commits<T> {
  readonly #parts: CommitParts<T>;
  readonly #most: number;
  #waiting: T[] = [];
  #running: Promise<void> | null = null;

  /** At most `most` items go into one write, so that one burst does not become one huge frame. */
  constructor(parts: CommitParts<T>, most: number) {
    this.#parts = parts;
    this.#most = most;
  }

  add(item: T): void {
    this.#waiting.push(item);
    this.#running ??= this.#run();
  }

  /** Resolves when everything added so far is written or lost. */
  async idle(): Promise<void> {
    await this.#running;
  }

  async #run(): Promise<void> {
    // Lets every message that came in the same turn join the first write.
    await Promise.resolve();
    while (this.#waiting.length > 0) {
      const items = this.#waiting.splice(0, this.#most);
      let isHanging = false;
      const patience = setTimeout(() => {
        isHanging = true;
        this.#parts.hangs();
      }, this.#parts.slowAfterMs);
      const failure = await this.#write(items);
      clearTimeout(patience);
      if (failure) {
        this.#parts.failed(failure.error, [...items, ...this.#waiting.splice(0)]);
      } else {
        this.#parts.written(items);
        if (isHanging) this.#parts.goesOn();
      }
    }
    this.#running = null;
  }

  async #write(items: readonly T[]): Promise<{ error: unknown } | null> {
    try {
      await this.#parts.write(items);
      return null;
    } catch (error) {
      return { error };
    }
  }
}
