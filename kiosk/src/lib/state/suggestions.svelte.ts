/** What the hub suggests to move, and what somebody here has said they do not want to do now. */
import { keyOf } from '#core/day/views/suggestionKey.ts';
import type { Alternative, Suggestion } from '#core/wire/suggested.ts';

export class Suggestions {
  #latest = $state.raw<Suggestion | null>(null);
  #away = $state.raw<ReadonlySet<string>>(new Set());

  /** Null: the hub has not said anything yet. */
  get latest(): Suggestion | null {
    return this.#latest;
  }

  take(suggestion: Suggestion): void {
    this.#latest = suggestion;
    // What is no longer suggested may be news when it comes again.
    const keys = suggestion.alternatives.map(keyOf);
    this.#away = new Set([...this.#away].filter((key) => keys.includes(key)));
  }

  forget(): void {
    this.#latest = null;
  }

  /** Everything suggested now stays away until something else is. */
  notNow(): void {
    this.#away = new Set(this.#latest?.alternatives.map(keyOf));
  }

  isAway(alternative: Alternative): boolean {
    return this.#away.has(keyOf(alternative));
  }
}
