/** The lease of the leading tab in IndexedDB: its transactions are the one thing that all tabs take in turn on plain http. */
import { openDB, type DBSchema } from 'idb';
import type { Lease, LeaseStore } from './lead.ts';

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
      const was: unknown = await turn.store.get(KEY);
      const is = next(isLease(was) ? was : null);
      await Promise.all([is ? turn.store.put(is, KEY) : turn.store.delete(KEY), turn.done]);
      return is;
    },
  };
}

function isLease(value: unknown): value is Lease {
  if (typeof value !== 'object' || value === null) return false;
  return (
    'tab' in value && typeof value.tab === 'string' && 'until' in value && typeof value.until === 'number'
  );
}
