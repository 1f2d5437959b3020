/**
 * Every tap is stored on the tablet before it is sent, is sent in order, and is removed only when the hub has answered
 * for it. So a tap survives a reload, a dead radio and a hub that starts anew.
 */
import { OPS_A_FRAME, TABLET_FRAME_BYTES } from '#core/wire/protocol.ts';
import type { Op } from '#core/day/ops.ts';

/** Where taps are kept. `all` answers in the order they were added. */
/** Where a browser keeps taps: its database, and the table in it. */
export const KEPT_IN = { database: 'aisle-board', table: 'taps' } as const;

export type OutboxStore = {
  readonly all: () => Promise<Op[]>;
  readonly add: (op: Op) => Promise<void>;
  readonly remove: (ids: readonly string[]) => Promise<void>;
};

type Kept = { readonly op: Op; state: 'storing' | 'stored' | 'sent' };

/** Room left in a frame for what is around the ops. */
const FRAME_MARGIN_BYTES = 1024;

/** Answered taps that are remembered by their ids. */
const GONE_KEPT = 500;

export class Outbox {
  readonly #store: OutboxStore;
  readonly #onChange: () => void;
  #kept: Kept[] = [];
  #isKept = true;
  /** Answered on this page: a look into the store that was under way must not bring them back. */
  readonly #gone = new Set<string>();

  constructor(store: OutboxStore, onChange: () => void) {
    this.#store = store;
    this.#onChange = onChange;
  }

  /** Brings in what is in the store: from an earlier visit, or from another tab. Those come in the store's order. */
  async open(): Promise<void> {
    const stored = await this.#store.all();
    const mine = new Map(this.#kept.map((kept) => [kept.op.id, kept]));
    const inStore = new Set(stored.map((op) => op.id));
    const first = stored
      .filter((op) => !this.#gone.has(op.id))
      .map((op): Kept => mine.get(op.id) ?? { op, state: 'stored' });
    this.#kept = [...first, ...this.#kept.filter((kept) => !inStore.has(kept.op.id))];
    this.#onChange();
  }

  /** A tap of another tab, which has stored it. */
  adopt(op: Op): void {
    if (this.#gone.has(op.id) || this.#kept.some((kept) => kept.op.id === op.id)) return;
    this.#kept.push({ op, state: 'stored' });
    this.#onChange();
  }

  /** Unanswered taps, in order. */
  get ops(): readonly Op[] {
    return this.#kept.map((kept) => kept.op);
  }

  /** Whether every tap that was given is safe from a reload. */
  get isAllStored(): boolean {
    return this.#kept.length === 0 || (this.#isKept && this.#kept.every((kept) => kept.state !== 'storing'));
  }

  /** False once the tablet refused to keep a tap: it is still sent, but a reload would lose it. */
  get isKept(): boolean {
    return this.#isKept;
  }

  async add(op: Op): Promise<void> {
    const kept: Kept = { op, state: 'storing' };
    this.#kept.push(kept);
    this.#onChange();
    try {
      await this.#store.add(op);
    } catch {
      this.#isKept = false;
    }
    if (kept.state === 'storing') kept.state = 'stored';
    this.#onChange();
  }

  /** The next ops to send over this connection, as one frame takes them; they count as sent until it is lost. */
  takeFrame(): Op[] {
    const ops: Op[] = [];
    let bytes = FRAME_MARGIN_BYTES;
    for (const kept of this.#kept) {
      // One that is not stored yet holds back those after it, so that the hub sees them in order.
      if (kept.state === 'storing') break;
      if (kept.state === 'sent') continue;
      bytes += new TextEncoder().encode(JSON.stringify(kept.op)).length + 1;
      if (ops.length > 0 && (ops.length >= OPS_A_FRAME || bytes > TABLET_FRAME_BYTES)) break;
      ops.push(kept.op);
    }
    const taken = new Set(ops.map((op) => op.id));
    for (const kept of this.#kept) if (taken.has(kept.op.id)) kept.state = 'sent';
    return ops;
  }

  /** What was sent over a connection that is gone may not have arrived. */
  connectionLost(): void {
    for (const kept of this.#kept) if (kept.state === 'sent') kept.state = 'stored';
  }

  async answered(ids: readonly string[]): Promise<void> {
    this.#forget(ids);
    try {
      await this.#store.remove(ids);
    } catch {
      // Left in the store it is sent again after a reload, and answered as before.
    }
  }

  /** Answered to another tab, which takes them out of the store. */
  answeredElsewhere(ids: readonly string[]): void {
    this.#forget(ids);
  }

  #forget(ids: readonly string[]): void {
    for (const id of ids) this.#gone.add(id);
    for (const id of [...this.#gone].slice(0, -GONE_KEPT)) this.#gone.delete(id);
    this.#kept = this.#kept.filter((kept) => !ids.includes(kept.op.id));
    this.#onChange();
  }
}

/** Keeps taps only as long as the page lives. */
export function memoryStore(): OutboxStore {
  const ops = new Map<string, Op>();
  return {
    all: async () => [...ops.values()],
    add: async (op) => void ops.set(op.id, op),
    remove: async (ids) => ids.forEach((id) => ops.delete(id)),
  };
}
