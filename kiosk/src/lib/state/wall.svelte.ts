/** A board that hangs: how long nobody has touched it, whether it is dark, and where its picture stands. */
import { isAtWork } from '#core/day/views/atWork.ts';
import {
  DARK_AFTER_MS,
  isDarkHour,
  SHIFT_EVERY_MS,
  shiftAt,
  STILL_AFTER_TOUCH_MS,
} from '#core/sight/rest.ts';
import type { Session } from './session.svelte.ts';

export class Wall {
  readonly #session: Session;
  /** Both by the page's clock, ms: at first since the page began, before this was there. */
  #touchedAt = 0;
  #shiftedAt = 0;
  #step = 0;
  #isDark = $state(false);
  #shift = $state.raw(shiftAt(0));

  constructor(session: Session) {
    this.#session = session;
  }

  get isDark(): boolean {
    return this.#isDark;
  }

  /** From its place, in CSS pixels. */
  get shift(): { readonly x: number; readonly y: number } {
    return this.#shift;
  }

  touched(): void {
    this.#touchedAt = this.#session.clock.mono();
    this.#isDark = false;
  }

  /** To be called every second. */
  tick(): void {
    const now = this.#session.clock.mono();
    const untouched = now - this.#touchedAt;
    const { hangs } = this.#session.setup;
    this.#isDark = hangs && untouched >= DARK_AFTER_MS && this.#mayBeDark();
    if (!hangs || untouched < STILL_AFTER_TOUCH_MS || now - this.#shiftedAt < SHIFT_EVERY_MS) return;
    this.#shiftedAt = now;
    this.#step += 1;
    this.#shift = shiftAt(this.#step);
  }

  #mayBeDark(): boolean {
    const { board, ticker } = this.#session;
    const shown = board.shown;
    if (!shown || !ticker.isKnown) return false;
    const { rules, zone } = shown.barn;
    return isDarkHour(rules, ticker.minute, zone) && !isAtWork(shown, ticker.minute);
  }
}
