/** From what the planner found to what a coordinator's tablet is told: sentences, facts, and before against after. */
import { own } from '#core/barn/basics.ts';
import type { Board } from '#core/day/board.ts';
import { personName } from '#core/day/views/aisle.ts';
import type { Alternative as Found, Rebalanced } from '#core/plan/rebalance/model.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { MOST_ALTERNATIVES, type Alternative, type Suggestion } from '#core/wire/suggested.ts';
import { sayAlternative, sayMoves } from '#core/words/en/plan.ts';
import type { Names } from '#core/words/names.ts';
import type { Audience } from './audience.ts';
import type { Session } from './session.ts';

/** `found` was worked out for `board`. */
export function suggestionFrom(found: Rebalanced, board: Board): Suggestion {
  const names = namesOn(board);
  const helping = found.alternatives.map((one) => alternative(one, names, false));
  const givingOut = found.giveOut ? [alternative(found.giveOut, names, true)] : [];
  return {
    asOf: Math.round(found.asOf),
    verdict: found.verdict,
    lateMs: found.now.latenessMs,
    undone: found.now.undone,
    alternatives: [...helping.slice(0, MOST_ALTERNATIVES - givingOut.length), ...givingOut],
  };
}

function alternative(found: Found, names: Names, onlyGivesOut: boolean): Alternative {
  return {
    text: sayAlternative(found, names),
    moves: found.moves.map((move) => ({
      text: sayMoves([move], names),
      from: move.from,
      fact: { kind: 'workMoved', pieces: move.pieces, to: move.to, before: move.before },
    })),
    lessons: found.lessons,
    people: found.people,
    proven: found.proven,
    onlyGivesOut,
  };
}

function namesOn(board: Board): Names {
  const { barn, day } = board;
  return {
    name: (id) => own(barn.horses, id)?.name ?? personName(board, id),
    lesson: (id) => {
      const lesson = own(day.lessons, id);
      if (!lesson) return 'a lesson';
      const { time } = wallTimeAt(lesson.start, barn.zone);
      const atOnce = Object.values(day.lessons).filter(
        ({ start, cancelled }) => start === lesson.start && !cancelled,
      );
      return atOnce.length > 1 ? `the ${time} lesson ${lesson.name}` : `the ${time} lesson`;
    },
  };
}

/** Whether a tablet that has been told `told` learns anything from `next`; when it was worked out counts for nothing. */
export function isNews(told: Suggestion | null, next: Suggestion): boolean {
  return told === null || JSON.stringify({ ...next, asOf: 0 }) !== JSON.stringify({ ...told, asOf: 0 });
}

/** Tells every coordinator's tablet what would help, once each time it changes. */
export class Suggestions {
  readonly #audience: Audience;
  #told: Suggestion | null = null;

  constructor(audience: Audience) {
    this.#audience = audience;
  }

  get isWatched(): boolean {
    return this.#audience.connections.coordinator > 0;
  }

  found(rebalanced: Rebalanced, board: Board): void {
    const next = suggestionFrom(rebalanced, board);
    if (!isNews(this.#told, next)) return;
    this.#told = next;
    for (const { session, live } of this.#audience.live()) {
      if (live.place.role === 'coordinator') this.#say(session, next);
    }
  }

  /** Somebody has come who may not have heard yet. False: they look for moves, and there is nothing to tell. */
  welcome(session: Session): boolean {
    if (session.role !== 'coordinator') return true;
    if (this.#told) this.#say(session, this.#told);
    return this.#told !== null;
  }

  #say(session: Session, suggestion: Suggestion): void {
    this.#audience.say(session, { say: 'suggested', suggestion });
  }
}
