/** Loads the page anew when the hub serves another build: only when nobody is touching it and no tap can be lost. */
import { MINUTE_MS } from '#core/time/units.ts';

/** Nobody is in the middle of something after this. */
const UNTOUCHED_MS = MINUTE_MS;

/** The hub's word for: it serves no pages, so they come from somewhere else. */
const NO_BUILD = 'none';

/** The build a reload was made for, so that a hub that keeps naming another one does not make the page go round. */
const TRIED_KEY = 'aisle-board.reloadedFor';

export class Reloader {
  readonly #own: string;
  readonly #isSafe: () => boolean;
  #wanted: string | null = null;
  #touchedAt = 0;

  constructor(own: string, isSafe: () => boolean) {
    this.#own = own;
    this.#isSafe = isSafe;
  }

  touched(now: number): void {
    this.#touchedAt = now;
  }

  hubServes(build: string): void {
    this.#wanted = build === NO_BUILD || build === this.#own ? null : build;
  }

  otherVersion(): void {
    this.#wanted ??= 'another protocol';
  }

  /** `now`: monotonic ms since the page was loaded. */
  maybe(now: number): void {
    if (this.#wanted === null || now - this.#touchedAt < UNTOUCHED_MS || !this.#isSafe()) return;
    try {
      if (sessionStorage.getItem(TRIED_KEY) === this.#wanted) return;
      sessionStorage.setItem(TRIED_KEY, this.#wanted);
    } catch {
      return;
    }
    location.reload();
  }
}
