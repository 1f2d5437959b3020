/** Where this browser keeps taps, and how its tabs agree on who sends them. No picture needs it: fetched after the first one. */
import { browserClocks, browserSurroundings } from './browser.ts';
import { newId } from './ids.ts';
import { leaseLead, lockLead, type Lead } from './lead.ts';
import { openLeaseDb } from './leaseDb.ts';
import { openOutboxDb } from './outboxDb.ts';
import type { Keeping } from './tapPost.ts';

export async function openKeeping(): Promise<Keeping> {
  const [store, lead] = await Promise.all([openOutboxDb().catch(() => null), browserLead()]);
  return { store, lead };
}

async function browserLead(): Promise<Lead | null> {
  if ('locks' in navigator) return lockLead(navigator.locks);
  try {
    const store = await openLeaseDb();
    return leaseLead({ store, tab: newId(), after: browserSurroundings.after, wall: browserClocks.wall });
  } catch {
    return null;
  }
}
