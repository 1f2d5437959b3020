/** Sentences to the person at the tablet: why a tap did not do what it said, and what to do. */
import { MINUTE_MS } from '#core/time/units.ts';
import type { Remembered } from '../link/store.ts';

export type Notice = {
  readonly id: string;
  readonly text: string;
  /** By this device's clock, ms: what was tapped did not come to pass. Null: it only says something. */
  readonly declinedAt: number | null;
};

/** Most shown at once: older ones make room. */
const SHOWN = 3;

/** What nobody has closed by then is no news any more, or the people have changed. */
const TOLD_MS = 30 * MINUTE_MS;

export class Notices {
  readonly #shelf: Remembered;
  #list = $state.raw<readonly Notice[]>([]);

  constructor(shelf: Remembered) {
    this.#shelf = shelf;
  }

  get list(): readonly Notice[] {
    return this.#list;
  }

  /** Says `text`; the same id again replaces what it said before. */
  say(id: string, text: string): void {
    this.#show({ id, text, declinedAt: null });
  }

  #show(notice: Notice): void {
    this.#list = [...this.#list.filter(({ id }) => id !== notice.id), notice].slice(-SHOWN);
  }

  /** Says why a tap was declined until somebody closes it, also after a reload. `wall`: this device's clock, ms. */
  keep(id: string, text: string, wall: number): void {
    this.#show({ id, text, declinedAt: wall });
    const before = this.#told(wall).filter((one) => one.id !== id);
    this.#shelf.set('told', [...before, { id, text, at: wall }].slice(-SHOWN));
  }

  /** Says what an earlier visit did and nobody has closed. */
  bringBack(wall: number): void {
    for (const { id, text, at } of this.#told(wall)) this.#show({ id, text, declinedAt: at });
  }

  /** Somebody wants to read it now. */
  raise(id: string, wall: number): void {
    const notice = this.#list.find((one) => one.id === id);
    if (notice) this.#show({ ...notice, declinedAt: wall });
  }

  dismiss(id: string): void {
    this.#list = this.#list.filter((notice) => notice.id !== id);
    const told = this.#shelf.get('told') ?? [];
    if (told.some((one) => one.id === id))
      this.#shelf.set(
        'told',
        told.filter((one) => one.id !== id),
      );
  }

  #told(wall: number) {
    return (this.#shelf.get('told') ?? []).filter(({ at }) => Math.abs(wall - at) < TOLD_MS);
  }
}
