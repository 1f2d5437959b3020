/** The lease of the leading tab in IndexedDB: its transactions are the one thing that all tabs take in turn on plain http. */
import { openDB, type DBSchema } from 'idb';
import * as z from 'zod/mini';
import type { LeaseStore } from './lead.ts';

const Lease = z.object({ tab: z.string(), until: z.number() });

type Schema = DBSchema & { lead: { key: string; value: unknown } };

const KEY = 'outbox';

/** Rejects when this browser has no IndexedDB, or will not open it. */
export async function openLeaseDb(): Promise<LeaseStore> {
  const db = await openDB<Schema>('aisle-board.lead', 1, {
    upgrade: (fresh) => void fresh.createObjectStore('lead'),
    blocking: (_, __, event) => (event.target as IDBDatabase).close(),
  });
  return {
    change: async (next) => {
      const turn = db.transaction('lead', 'readwrite');
      const was = Lease.safeParse(await turn.store.get(KEY));
      const is = next(was.success ? was.data : null);
      await Promise.all([is ? turn.store.put(is, KEY) : turn.store.delete(KEY), turn.done]);
      return is;
    },
  };
}
