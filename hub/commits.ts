/**
 * Group commit: while one write is under way, what comes in gathers, and the next write takes all of it. One wait for
 * the disk then serves many taps.
 */

export type CommitParts<T> = {
  /** Resolves when all of `items` are on disk. */
  write(items: readonly T[]): Promise<void>;
  /** Called after each write, in order. */
  written(items: readonly T[]): void;
  /** Called once; nothing is written after it. */
  failed(error: unknown): void;
};

export class Commits<T> {
  readonly #parts: CommitParts<T>;
  readonly #most: number;
  #waiting: T[] = [];
  #running: Promise<void> | null = null;
  #broken = false;

  /** At most `most` items go into one write, so that one burst does not become one huge frame. */
  constructor(parts: CommitParts<T>, most: number) {
    this.#parts = parts;
    this.#most = most;
  }

  get isBroken(): boolean {
    return this.#broken;
  }

  add(item: T): void {
    if (this.#broken) return;
    this.#waiting.push(item);
    this.#running ??= this.#run();
  }

  /** Resolves when everything added so far is written, or writing has failed. */
  async idle(): Promise<void> {
    await this.#running;
  }

  async #run(): Promise<void> {
    // Lets every message that came in the same turn join the first write.
    await Promise.resolve();
    try {
      while (this.#waiting.length > 0) {
        const items = this.#waiting.splice(0, this.#most);
        await this.#parts.write(items);
        this.#parts.written(items);
      }
    } catch (error) {
      this.#broken = true;
      this.#waiting = [];
      this.#parts.failed(error);
    } finally {
      this.#running = null;
    }
  }
}
