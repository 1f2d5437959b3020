/** Finding a record by what a file calls it: its id, or its name without regard to case and spaces. */
import type { NamedTable } from './problem.ts';
import type { Barn } from '../barn/barn.ts';

export type Found = { readonly id: string } | 'none' | 'several';

export function plainName(name: string): string {
  return name.normalize('NFC').toLowerCase().replaceAll(/\s+/g, ' ').trim();
}

export class Names {
  readonly #ids = new Set<string>();
  /** Null: several have this name. */
  readonly #byName = new Map<string, string | null>();

  constructor(records: Iterable<{ readonly id: string; readonly name: string }>) {
    for (const { id, name } of records) this.add(id, name);
  }

  add(id: string, name: string): void {
    const plain = plainName(name);
    const known = this.#byName.get(plain);
    this.#ids.add(id);
    this.#byName.set(plain, known === undefined || known === id ? id : null);
  }

  has(id: string): boolean {
    return this.#ids.has(id);
  }

  find(text: string): Found {
    const named = this.#byName.get(plainName(text));
    if (named === null) return this.#ids.has(text) ? { id: text } : 'several';
    if (named !== undefined) return { id: named };
    return this.#ids.has(text) ? { id: text } : 'none';
  }
}

/** The names in use, by table. */
export function namesIn(barn: Barn): { readonly [T in NamedTable]: Names } {
  const named = (records: Readonly<Record<string, { id: string; name: string }>>): Names =>
    new Names(Object.values(records));
  return {
    stalls: named(barn.stalls),
    horses: named(barn.horses),
    volunteers: named(barn.volunteers),
    staff: named(barn.staff),
    riders: new Names(Object.values(barn.riders).map(({ id, callName }) => ({ id, name: callName }))),
    arenas: named(barn.arenas),
  };
}
