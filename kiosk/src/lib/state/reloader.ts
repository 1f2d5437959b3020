/** Loads the page anew when the hub serves another build: only when nobody is touching it and no tap can be lost. */
import { MINUTE_MS, SECOND_MS } from '#core/time/units.ts';

/** Nobody is in the middle of something after this. */
const UNTOUCHED_MS = MINUTE_MS;

/** What a touch asked for comes, or fails, within this. */
const ASKED_MS = 3 * SECOND_MS;

/** A hub that keeps naming another build does not make the page go round: so long until the next try for the same one. */
const AGAIN_MS = 15 * MINUTE_MS;

/** The hub's word for: it serves no pages, so they come from somewhere else. */
const NO_BUILD = 'none';

/** What the hub speaks that this page does not: its build is not known. */
const UNREADABLE = 'unreadable';

/** The build a reload was made for, and when by this device's clock. */
const TRIED_KEY = 'aisle-board.reloadedFor';

export type ReloaderParts = {
  /** The build of this page. */
  readonly own: string;
  /** Whether no tap would be lost. */
  readonly isSafe: () => boolean;
  /** False: not now, the hub does not serve pages. */
  readonly reload: () => Promise<boolean>;
  /** sessionStorage, or anything like it. */
  readonly shelf: Pick<Storage, 'getItem' | 'setItem'>;
  /** This device's clock, ms. */
  readonly wall: () => number;
};

export class Reloader {
  readonly #parts: ReloaderParts;
  #wanted: string | null = null;
  #touchedAt = 0;
  #isTrying = false;

  constructor(parts: ReloaderParts) {
    this.#parts = parts;
  }

  touched(now: number): void {
    this.#touchedAt = now;
  }

  hubServes(build: string): void {
    this.#wanted = build === NO_BUILD || build === this.#parts.own ? null : build;
  }

  /** A newer build is there and nobody has just asked for anything: what this one still lacks need not come. */
  isWaiting(now: number): boolean {
    return this.#wanted !== null && now - this.#touchedAt > ASKED_MS;
  }

  /** The hub says that it speaks another version, or says what this page cannot read. */
  cannotRead(): void {
    this.#wanted ??= UNREADABLE;
  }

  /** `now`: monotonic ms since the page was loaded. */
  async maybe(now: number): Promise<void> {
    const wanted = this.#wanted;
    if (wanted === null || this.#isTrying || now - this.#touchedAt < UNTOUCHED_MS || !this.#parts.isSafe())
      return;
    if (!this.#mayTry(wanted)) return;
    this.#isTrying = true;
    if (!(await this.#parts.reload())) this.#forgetTry();
    this.#isTrying = false;
  }

  #forgetTry(): void {
    try {
      this.#parts.shelf.setItem(TRIED_KEY, '');
    } catch {
      // Then the next try waits its quarter of an hour.
    }
  }

  #mayTry(wanted: string): boolean {
    const { shelf, wall } = this.#parts;
    try {
      const [build, at] = (shelf.getItem(TRIED_KEY) ?? '').split(' ');
      const since = wall() - Number(at);
      if (build === wanted && since >= 0 && since < AGAIN_MS) return false;
      shelf.setItem(TRIED_KEY, `${wanted} ${wall()}`);
      return true;
    } catch {
      // Without a memory of the last try it might go round for ever.
      return false;
    }
  }
}
