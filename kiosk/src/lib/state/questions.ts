/** Questions put to the hub, each with its answer or the lack of one. */
import type { FromHub } from '#core/wire/messages.ts';
import { SECOND_MS } from '#core/time/units.ts';
import { newId } from '../link/ids.ts';

export type Considered = Extract<FromHub, { say: 'considered' }>;

const PATIENCE_MS = 8 * SECOND_MS;

export class Questions<Answer extends { readonly ask: string }> {
  readonly #open = new Map<string, (answer: Answer | null) => void>();
  readonly #patienceMs: number;

  constructor(patienceMs = PATIENCE_MS) {
    this.#patienceMs = patienceMs;
  }

  /** Null: could not be sent, or no answer came in time. */
  ask(send: (ask: string) => boolean): Promise<Answer | null> {
    const ask = newId();
    return new Promise((resolve) => {
      const timer = setTimeout(() => this.#settle(ask, null), this.#patienceMs);
      this.#open.set(ask, (answer) => {
        clearTimeout(timer);
        resolve(answer);
      });
      if (!send(ask)) this.#settle(ask, null);
    });
  }

  answer(answer: Answer): void {
    this.#settle(answer.ask, answer);
  }

  giveUp(): void {
    for (const ask of this.#open.keys()) this.#settle(ask, null);
  }

  #settle(ask: string, answer: Answer | null): void {
    const resolve = this.#open.get(ask);
    this.#open.delete(ask);
    resolve?.(answer);
  }
}
