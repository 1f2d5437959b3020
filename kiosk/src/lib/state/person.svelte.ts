/** Who is at this tablet: the last name tapped counts for a while, so that the next tap needs none. */
import { SECOND_MS } from '#core/time/units.ts';

/** Long enough to mark a second stage or horse in passing, short enough that the next person is asked. */
export const REMEMBERED_MS = 90 * SECOND_MS;

export class PersonHere {
  #last = $state.raw<{ readonly id: string; readonly at: number } | null>(null);

  /** Whoever tapped last, at hub time `now` (ms); null when nobody did of late. */
  at(now: number): string | null {
    return this.#last && now - this.#last.at < REMEMBERED_MS ? this.#last.id : null;
  }

  tapped(id: string, now: number): void {
    this.#last = { id, at: now };
  }

  forget(): void {
    this.#last = null;
  }
}
