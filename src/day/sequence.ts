/**
 * The hub's order of things, without the hub: one op in, one numbered entry out. The sequence number is the only
 * order; an op already seen is answered as the first time and changes nothing.
 */
import { decide, type Decision } from './decide.ts';
import { evolve } from './evolve.ts';
import type { Board } from './board.ts';
import type { Entry, Fact, Op, Reason } from './ops.ts';
import type { Role } from './places.ts';
import { objectionHere } from './mayDo.ts';

/** How an op was answered. `why` null: all as tapped. Otherwise less came of it, or nothing. */
export type Outcome = { readonly seq: number; readonly why: Reason | null };

/** What the hub remembers between starts: the board, where the numbering stands, and how each op was answered. */
export type SequenceState = {
  readonly board: Board;
  readonly seq: number;
  readonly at: number;
  readonly seen: readonly (readonly [op: string, outcome: Outcome])[];
};

export type Mark = Pick<SequenceState, 'board' | 'seq' | 'at'>;

/**
 * How many answers are remembered, to answer a repeated op as the first time. A busy day has some 500 ops; no tablet
 * holds on to a tap for the weeks it takes to forget one.
 */
const REMEMBERED_OPS = 10_000;

/** A map whose first key goes with every op is walked from its start each time, over all that have gone. */
const FORGOTTEN_AT_ONCE = 1000;

export class Sequence {
  #board: Board;
  #seq: number;
  /** Entries never go back in time, whatever the hub's clock does, but for a hub that goes back from a day to come. */
  #at: number;
  readonly #seen: Map<string, Outcome>;

  constructor({ board, seq, at, seen }: SequenceState) {
    this.#board = board;
    this.#seq = seq;
    this.#at = at;
    this.#seen = new Map(seen);
  }

  get board(): Board {
    return this.#board;
  }

  /** Number of the last entry; 0 before the first. */
  get seq(): number {
    return this.#seq;
  }

  /** Number of the entry that op `id` led to; null: it is not known. */
  seqOf(id: string): number | null {
    return this.#seen.get(id)?.seq ?? null;
  }

  /** Where things stand, to come back to with `rewind`. */
  get mark(): Mark {
    return { board: this.#board, seq: this.#seq, at: this.#at };
  }

  /** As if `lost`, all entries after `mark`, had never been accepted: they did not reach the disk. */
  rewind({ board, seq, at }: Mark, lost: readonly Entry[]): void {
    this.#board = board;
    this.#seq = seq;
    this.#at = at;
    for (const { id } of lost) this.#seen.delete(id);
  }

  /** The board as `change` makes it anew; numbers and answers stay. No entry may be on its way to disk. */
  rewrite(change: (board: Board) => Board): void {
    this.#board = change(this.#board);
  }

  get state(): SequenceState {
    return this.stateAt(this.mark);
  }

  /** The state as it was at `mark`. */
  stateAt({ board, seq, at }: Mark): SequenceState {
    return { board, seq, at, seen: [...this.#seen].filter(([, outcome]) => outcome.seq <= seq) };
  }

  /** Takes one op from a tablet in `role` at hub time `now` (ms). `entry` is null for a repeated op. */
  accept(op: Op, role: Role, now: number): { entry: Entry | null; outcome: Outcome } {
    const before = this.#seen.get(op.id);
    if (before) return { entry: null, outcome: before };
    const notHere = objectionHere(role, op, this.#board.day);
    const { facts, why }: Decision = notHere ? { facts: [], why: notHere } : decide(this.#board, op);
    const at = facts.some((fact) => goesBack(this.#board, fact)) ? now : Math.max(now, this.#at);
    const entry: Entry = {
      seq: this.#seq + 1,
      at,
      id: op.id,
      device: op.device,
      by: op.by,
      tappedAt: Math.min(op.tappedAt, at),
      facts: [...facts],
      why,
    };
    this.replay(entry);
    return { entry, outcome: { seq: entry.seq, why } };
  }

  /** Takes an entry as it was numbered before: from the journal. */
  replay(entry: Entry): void {
    const back = entry.facts.some((fact) => goesBack(this.#board, fact));
    this.#board = evolve(this.#board, entry);
    this.#seq = entry.seq;
    this.#at = back ? entry.at : Math.max(this.#at, entry.at);
    this.#seen.set(entry.id, { seq: entry.seq, why: entry.why });
    if (this.#seen.size >= REMEMBERED_OPS + FORGOTTEN_AT_ONCE) this.#forget();
  }

  #forget(): void {
    for (const id of this.#seen.keys()) {
      if (this.#seen.size <= REMEMBERED_OPS) return;
      this.#seen.delete(id);
    }
  }
}

function goesBack({ day }: Board, fact: Fact): boolean {
  return fact.kind === 'dayOpened' && day.date !== null && fact.date < day.date;
}
