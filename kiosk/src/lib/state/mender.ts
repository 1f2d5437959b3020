/**
 * What a page does that something has broken in: nobody stands at the wall to press "reload". It loads itself anew, later each
 * time it breaks again, never into nothing and never at the cost of a tap.
 */
import { MINUTE_MS, SECOND_MS } from '#core/time/units.ts';

/** Before the first, second, … new start in a row. The last one stays. */
const WAITS_MS = [2 * SECOND_MS, 30 * SECOND_MS, 2 * MINUTE_MS, 10 * MINUTE_MS];

/** Without a fault for so long what was before counts no more. */
const FORGOTTEN_MS = 30 * MINUTE_MS;

/** While a tap would be lost or the hub is away, it is tried again this often. */
const AGAIN_MS = 10 * SECOND_MS;

/** A picture that is seen is drawn between two seconds; after so many without, it stands. A tablet's sleep counts none. */
const FROZEN_SECONDS = 30;

const KEY = 'aisle-board.mended';

export type MenderParts = {
  /** Whether no tap would be lost. */
  readonly isSafe: () => boolean;
  /** False: not now, nothing would be there to load. */
  readonly reload: () => Promise<boolean>;
  /** sessionStorage, or anything like it. */
  readonly shelf: Pick<Storage, 'getItem' | 'setItem'>;
  /** This device's clock, ms. */
  readonly wall: () => number;
  readonly after: (ms: number, run: () => void) => void;
};

export class Mender {
  readonly #parts: MenderParts;
  #isBroken = false;
  #undrawn = 0;

  constructor(parts: MenderParts) {
    this.#parts = parts;
  }

  /** Something has broken. True: for the first time, so that it can be said. */
  broke(): boolean {
    if (this.#isBroken) return false;
    this.#isBroken = true;
    const { wall, after } = this.#parts;
    const before = this.#read();
    const count = wall() - before.at < FORGOTTEN_MS ? before.count : 0;
    const wait = WAITS_MS[Math.min(count, WAITS_MS.length - 1)] ?? 0;
    after(wait, () => void this.#start(count + 1));
    return true;
  }

  /** When the start before this one was because of a fault, ms of this device's clock; told once. */
  mendedAt(): number | null {
    const { count, at, isTold } = this.#read();
    if (count === 0 || isTold || this.#parts.wall() - at > FORGOTTEN_MS) return null;
    this.#write({ count, at, isTold: true });
    return at;
  }

  /** The picture was drawn, or nobody could see it. */
  drawn(): void {
    this.#undrawn = 0;
  }

  /** Another second. True: the picture should have been drawn long ago. */
  isFrozen(): boolean {
    this.#undrawn += 1;
    return this.#undrawn > FROZEN_SECONDS;
  }

  async #start(count: number): Promise<void> {
    const { isSafe, reload, wall, after } = this.#parts;
    const again = (): void => after(AGAIN_MS, () => void this.#start(count));
    if (!isSafe()) return again();
    // Without a memory of it the page might go round for ever at full speed.
    if (!this.#write({ count, at: wall(), isTold: false })) return;
    if (!(await reload())) again();
  }

  #read(): { count: number; at: number; isTold: boolean } {
    try {
      const [count = '', at = '', told] = (this.#parts.shelf.getItem(KEY) ?? '').split(' ');
      return { count: Number(count) || 0, at: Number(at) || 0, isTold: told === 'told' };
    } catch {
      return { count: 0, at: 0, isTold: true };
    }
  }

  #write({ count, at, isTold }: { count: number; at: number; isTold: boolean }): boolean {
    try {
      this.#parts.shelf.setItem(KEY, `${count} ${at} ${isTold ? 'told' : ''}`);
      return true;
    } catch {
      return false;
    }
  }
}
