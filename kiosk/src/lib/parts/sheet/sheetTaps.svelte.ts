/** What the day sheet is told: of today it goes into the day, of another date into the barn's book; and the way back. */
import type { Board } from '#core/day/board.ts';
import type { Source } from '#core/day/fromBook.ts';
import type { OpFact } from '#core/day/ops.ts';
import { asEveryWeek, onOtherDate, takenBack, type BookFact } from '#core/day/ownDate.ts';
import { newId } from '../../link/ids.ts';
import type { Session } from '../../state/session.svelte.ts';

export class SheetTaps {
  readonly #session: Session;
  #back = $state.raw<(() => void) | null>(null);

  constructor(session: Session) {
    this.#session = session;
  }

  get canUndo(): boolean {
    return this.#back !== null;
  }

  /** Said of the open day. */
  today(fact: OpFact): void {
    const op = this.#session.tap(fact);
    this.#back = () => this.#session.undo(op);
  }

  /** Said of another date, ISO 8601: it holds for that date alone. */
  onDate(board: Board, date: string, fact: OpFact): void {
    const { facts, why } = onOtherDate(board, date, fact, newId);
    if (why) this.#session.notices.say('sheet', this.#session.explain(why));
    else this.#inBook(board, facts);
  }

  /** The lesson of that date as it is every week again. */
  everyWeek(board: Board, source: Source): void {
    this.#inBook(board, asEveryWeek(board, source));
  }

  undo(): void {
    this.#back?.();
    this.#back = null;
  }

  #inBook(board: Board, facts: readonly BookFact[]): void {
    for (const fact of facts) this.#session.tap(fact);
    this.#back = () => {
      for (const fact of takenBack(board, facts)) this.#session.tap(fact);
    };
  }
}
