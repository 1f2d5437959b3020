/**
 * What is written in a form and not saved yet: kept over a reload of the page, and gone when its tab is closed or the tablet
 * is locked, since it may hold a rider's weight.
 */
type Kept = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

const PREFIX = 'draft ';

export class KeptDrafts {
  readonly #shelf: Kept;

  constructor(shelf: Kept) {
    this.#shelf = shelf;
  }

  get(key: string): Readonly<Record<string, unknown>> | null {
    try {
      const found: unknown = JSON.parse(this.#shelf.getItem(`${PREFIX}${key}`) ?? 'null');
      return typeof found === 'object' && found !== null ? (found as Record<string, unknown>) : null;
    } catch {
      return null;
    }
  }

  keep(key: string, draft: Readonly<Record<string, unknown>>): void {
    try {
      this.#shelf.setItem(`${PREFIX}${key}`, JSON.stringify(draft));
    } catch {
      // A full or forbidden shelf: the form itself still holds it.
    }
  }

  drop(key: string): void {
    this.#shelf.removeItem(`${PREFIX}${key}`);
  }

  /** All of them. */
  clear(): void {
    const keys = Array.from({ length: this.#shelf.length }, (_, i) => this.#shelf.key(i) ?? '');
    for (const key of keys) if (key.startsWith(PREFIX)) this.#shelf.removeItem(key);
  }
}
