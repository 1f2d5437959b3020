/** Sentences to the person at the tablet: why a tap did not do what it said, and what to do. */
export type Notice = { readonly id: string; readonly text: string };

/** Most shown at once: older ones make room. */
const SHOWN = 3;

export class Notices {
  #list = $state.raw<readonly Notice[]>([]);

  get list(): readonly Notice[] {
    return this.#list;
  }

  /** Says `text`; the same id again replaces what it said before. */
  say(id: string, text: string): void {
    this.#list = [...this.#list.filter((notice) => notice.id !== id), { id, text }].slice(-SHOWN);
  }

  dismiss(id: string): void {
    this.#list = this.#list.filter((notice) => notice.id !== id);
  }
}
