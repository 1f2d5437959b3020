/** The outbox's store in IndexedDB, which plain http has too. All tabs of this tablet share it. */
import { openDB, type DBSchema } from 'idb';
import type { Op } from '#core/day/ops.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import { isOp } from './neighbours.ts';
import { KEPT_IN, type OutboxStore } from './outbox.ts';

/** `protocol`: of the build that kept it; those that did not say so were before 3. */
type Row = { id: string; n: number; op: unknown; protocol?: number };

const { database, table } = KEPT_IN;

type Schema = DBSchema & {
  [table]: { key: string; value: Row; indexes: { n: number } };
};

/** Rejects when this browser has no IndexedDB, or will not open it. */
export async function openOutboxDb(): Promise<OutboxStore> {
  const db = await openDB<Schema>(database, 1, {
    upgrade: (fresh) => void fresh.createObjectStore(table, { keyPath: 'id' }).createIndex('n', 'n'),
    // A tab of a newer build wants another shape: it must not wait for this one.
    blocking: (_, __, event) => (event.target as IDBDatabase).close(),
  });
  return {
    all: async () => {
      const kept = await db.getAllFromIndex(table, 'n');
      // What a newer build has kept waits for one: this page may not know its kind.
      return kept.flatMap(({ op, protocol = 0 }): Op[] => (protocol <= PROTOCOL && isOp(op) ? [op] : []));
    },
    add: async (op) => {
      const write = db.transaction(table, 'readwrite', { durability: 'strict' });
      // Numbered in the same transaction, so that the taps of two tabs keep their order.
      const last = await write.store.index('n').openCursor(null, 'prev');
      const n = (last?.value.n ?? 0) + 1;
      await Promise.all([write.store.put({ id: op.id, n, op, protocol: PROTOCOL }), write.done]);
    },
    remove: async (ids) => {
      const write = db.transaction(table, 'readwrite');
      await Promise.all([...ids.map((id) => write.store.delete(id)), write.done]);
    },
  };
}
