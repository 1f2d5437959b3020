/** Counts what was tried and what of it got in, for a line that says both. */
import { expect } from 'vitest';

export class Attempts {
  readonly #name: string;
  readonly #letIn: string[] = [];
  #tried = 0;

  constructor(name: string) {
    this.#name = name;
  }

  add(what: string, isIn: boolean): void {
    this.#tried += 1;
    if (isIn) this.#letIn.push(what);
  }

  /** Prints `NAME: tried N / let in M`; fails for an M that is not 0, and for fewer than `least` tried. */
  done(least = 1): void {
    console.log(`${this.#name}: tried ${this.#tried} / let in ${this.#letIn.length}`);
    expect(this.#letIn).toEqual([]);
    expect(this.#tried).toBeGreaterThanOrEqual(least);
  }
}
