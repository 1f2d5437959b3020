/** What was just tapped on this tablet and can be taken back with one more tap. */
import { SECOND_MS } from '#core/time/units.ts';

/** Long enough to see the mistake and reach for it, without standing in the way of the next tap. */
export const UNDO_MS = 10 * SECOND_MS;

export type FreshTap = {
  readonly op: string;
  /** Ops sent with it, taken back with it. */
  readonly also?: readonly string[];
  /** The prep, horse, person or lesson it was about. */
  readonly subject: string;
  /** What it said, in words. */
  readonly says: string;
  readonly at: number;
};

export class FreshTaps {
  #list = $state.raw<readonly FreshTap[]>([]);

  add(tap: FreshTap): void {
    this.#list = [...this.#list.filter((one) => tap.at - one.at < UNDO_MS), tap];
  }

  /** The last one, also when it can no longer be taken back. */
  get last(): FreshTap | null {
    return this.#list.at(-1) ?? null;
  }

  /** The op with those sent along, newest first: the order in which they are taken back. */
  withAlso(op: string): readonly string[] {
    const also = this.#list.find((tap) => tap.op === op)?.also ?? [];
    return [op, ...also.toReversed()];
  }

  drop(op: string): void {
    this.#list = this.#list.filter((tap) => tap.op !== op);
  }

  /** The last tap about `subject` that can still be taken back at hub time `now` (ms). */
  about(subject: string, now: number): FreshTap | null {
    return this.#list.findLast((tap) => tap.subject === subject && now - tap.at < UNDO_MS) ?? null;
  }
}
