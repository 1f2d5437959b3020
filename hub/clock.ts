/**
 * The hub's time. A small computer has no clock of its own while it is off: the system's clock is set while the hub runs,
 * by hours when the network comes, and may be set back. Between two looks at it the monotonic clock counts, so that time
 * never stumbles by itself. A small difference is made up slowly; a large one is taken over at once, and said.
 */
import type { Status } from '#core/wire/messages.ts';

/** Both in ms; `wall` since 1970, `mono` from any zero. */
export type Clocks = { readonly wall: () => number; readonly mono: () => number };

/** How often both clocks are compared. */
const LOOK_EVERY_MS = 1000;

/** A larger difference is a clock that was set, or a computer that slept; a smaller one is made up without a word. */
export const JUMP_MS = 2000;

/** How fast a difference is made up: 20 ms a second, a hundredth of a countdown's minute in half a minute. */
const SLEW = 0.02;

/** How long a jump is said. */
export const SAID_FOR_MS = 10 * 60_000;

type ClockParts = Clocks & {
  /** A jump has been noticed, or is no longer said. */
  readonly changed: () => void;
  readonly log: (line: string) => void;
};

export class SteadyClock {
  readonly #parts: ClockParts;
  /** Hub time and monotonic time at the last look, and what is to be made up since then. */
  #at: number;
  #mono: number;
  #behind = 0;
  #jump: Status['clockJump'] = null;
  #jumpedAt: number | null = null;
  #timer: NodeJS.Timeout | null = null;

  constructor(parts: ClockParts) {
    this.#parts = parts;
    this.#at = parts.wall();
    this.#mono = parts.mono();
  }

  start(): void {
    this.#timer ??= setInterval(() => this.look(), LOOK_EVERY_MS);
  }

  stop(): void {
    if (this.#timer) clearInterval(this.#timer);
    this.#timer = null;
  }

  /** Hub time, whole ms since 1970. Goes back only when a jump back is taken over. */
  now(): number {
    return Math.round(this.#exactly());
  }

  /** The jump that is to be said; null: none in the last minutes. */
  get jump(): Status['clockJump'] {
    return this.#jump;
  }

  /** Since when no jump has been noticed, in ms; Infinity: never was one. */
  get steadyForMs(): number {
    return this.#jumpedAt === null ? Infinity : this.#parts.mono() - this.#jumpedAt;
  }

  /** Compares both clocks. */
  look(): void {
    const { wall, mono, log, changed } = this.#parts;
    const now = this.#exactly();
    const off = wall() - now;
    this.#mono = mono();
    if (Math.abs(off) <= JUMP_MS) {
      this.#at = now;
      this.#behind = off;
      if (this.#jump && this.steadyForMs > SAID_FOR_MS) {
        this.#jump = null;
        changed();
      }
      return;
    }
    this.#at = now + off;
    this.#behind = 0;
    this.#jumpedAt = this.#mono;
    this.#jump = { at: this.now(), byMs: Math.round(off) };
    log(`The clock was set ${off > 0 ? 'ahead' : 'back'} by ${Math.round(Math.abs(off) / 1000)} s.`);
    changed();
  }

  #exactly(): number {
    const passed = this.#parts.mono() - this.#mono;
    const most = passed * SLEW;
    return this.#at + passed + Math.max(-most, Math.min(most, this.#behind));
  }
}

/** A demo's time is pretend: a computer that sleeps or is set must not make its horses late. */
export function systemClocks(demo: boolean): Clocks {
  const mono = (): number => performance.now();
  const zero = Date.now() - mono();
  return { mono, wall: demo ? () => zero + mono() : () => Date.now() };
}
