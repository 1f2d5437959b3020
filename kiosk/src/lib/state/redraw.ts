/**
 * When what was heard is put on the board. The first of it before the next paint; what comes soon after that is gathered, so
 * that a busy barn redraws a cheap tablet a few times a second and its own taps find it free. Taps made here never wait.
 */

/** Nobody in an aisle sees that another's tap came this much later, in ms. */
export const REDRAW_EVERY_MS = 200;

type Parts = {
  readonly mono: () => number;
  readonly after: (ms: number, run: () => void) => void;
  readonly beforePaint: (run: () => void) => void;
  /** A page that is hidden paints nothing. */
  readonly isHidden: () => boolean;
};

export class Redraw {
  readonly #take: () => void;
  readonly #parts: Parts;
  #isDue = false;
  #lastAt = -Infinity;

  constructor(take: () => void, parts: Parts) {
    this.#take = take;
    this.#parts = parts;
  }

  /** Something was heard that can wait a little. */
  soon(): void {
    const { mono, after, beforePaint, isHidden } = this.#parts;
    if (isHidden()) return this.now();
    if (this.#isDue) return;
    this.#isDue = true;
    const wait = this.#lastAt + REDRAW_EVERY_MS - mono();
    const draw = (): void => beforePaint(() => this.#isDue && this.now());
    if (wait > 0) after(wait, draw);
    else draw();
  }

  now(): void {
    this.#isDue = false;
    this.#lastAt = this.#parts.mono();
    this.#take();
  }
}
