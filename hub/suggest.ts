/** From what the planner found to what a coordinator's tablet is told: moves, what for, and before against after. */
import type { Alternative as Found, Rebalanced } from '#core/plan/rebalance/model.ts';
import { MOST_ALTERNATIVES, type Alternative, type Suggestion } from '#core/wire/suggested.ts';
import type { Audience } from './audience.ts';
import type { Session } from './session.ts';

export function suggestionFrom(found: Rebalanced): Suggestion {
  const helping = found.alternatives.map((one) => alternative(one, false));
  const givingOut = found.giveOut ? [alternative(found.giveOut, true)] : [];
  return {
    asOf: Math.round(found.asOf),
    verdict: found.verdict,
    lateMs: found.now.latenessMs,
    undone: found.now.undone,
    alternatives: [...helping.slice(0, MOST_ALTERNATIVES - givingOut.length), ...givingOut],
  };
}

function alternative({ moves, why, lessons, people, proven }: Found, onlyGivesOut: boolean): Alternative {
  return { moves, why, lessons, people, proven, onlyGivesOut };
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

  found(rebalanced: Rebalanced): void {
    const next = suggestionFrom(rebalanced);
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
