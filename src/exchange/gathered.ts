/** Records a file comes to, one by one: against those that are there, each is new, changed or the same. */
import { TableRecord as TableRecordSchema, type Barn, type Table, type TableRecord } from '../barn/barn.ts';
import { recordsOf } from '../barn/tables.ts';
import { own } from '../barn/basics.ts';
import type { At, Problem } from './problem.ts';

export type Count = { readonly fresh: number; readonly changed: number; readonly same: number };
export type Counts = Partial<Record<Table, Count>>;

const NOTHING: Count = { fresh: 0, changed: 0, same: 0 };

export class Gathered {
  readonly put: TableRecord[] = [];
  readonly #barn: Barn;
  readonly #problems: Problem[];
  readonly #counts: Counts = {};

  constructor(barn: Barn, problems: Problem[]) {
    this.#barn = barn;
    this.#problems = problems;
  }

  get counts(): Counts {
    return this.#counts;
  }

  /** `draft` is a record as far as the file knows it. What the records do not take is a problem at `at`. */
  add(
    table: Table,
    draft: { readonly id: string; readonly [field: string]: unknown },
    at: (field: string) => At,
  ): void {
    const parsed = TableRecordSchema.safeParse({ table, record: draft });
    if (!parsed.success) {
      const field = String(parsed.error.issues[0]?.path[1] ?? '');
      this.#problems.push({ at: at(field), what: { code: 'notInRecord', field } });
      return;
    }
    const known = own(recordsOf(this.#barn, table), draft.id);
    const count = this.#counts[table] ?? NOTHING;
    if (known !== undefined && isSame(known, parsed.data.record)) {
      this.#counts[table] = { ...count, same: count.same + 1 };
      return;
    }
    this.#counts[table] = known
      ? { ...count, changed: count.changed + 1 }
      : { ...count, fresh: count.fresh + 1 };
    this.put.push(parsed.data);
  }
}

/** Whether two records say the same, whatever the order of their fields. A field that is undefined is not there. */
export function isSame(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) {
    return (
      Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((one, i) => isSame(one, b[i]))
    );
  }
  const [left, right] = [entries(a), entries(b)];
  return (
    left.length === right.length &&
    left.every(([key, value]) => isSame(value, (b as Record<string, unknown>)[key]))
  );
}

function entries(record: object): [string, unknown][] {
  return Object.entries(record).filter(([, value]) => value !== undefined);
}
