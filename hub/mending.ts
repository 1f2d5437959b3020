/** A disk that failed is tried again every few seconds, until it can be written. */

type MendingParts = {
  /** Rejects while it cannot be. */
  readonly mend: () => Promise<void>;
  readonly mended: () => void;
  readonly everyMs: number;
};

export class Mending {
  readonly #parts: MendingParts;
  #timer: NodeJS.Timeout | null = null;
  #stopped = false;

  constructor(parts: MendingParts) {
    this.#parts = parts;
  }

  begin(): void {
    if (!this.#stopped) this.#timer = setTimeout(() => void this.#try(), this.#parts.everyMs);
  }

  /** For good. */
  stop(): void {
    this.#stopped = true;
    if (this.#timer) clearTimeout(this.#timer);
  }

  async #try(): Promise<void> {
    const isMended = await this.#parts.mend().then(
      () => true,
      () => false,
    );
    if (!isMended) this.begin();
    else if (!this.#stopped) this.#parts.mended();
  }
}
