/** The lease by which one tab of a tablet sends for all: our own rule, held against a simple shared record. */
import { describe, expect, it } from 'vitest';
import {
  askedBy,
  LEASE_MS,
  leaseLead,
  type Lease,
  type LeaseStore,
} from '../../../kiosk/src/lib/link/lead.ts';

describe('a lease', () => {
  it('is had by whoever finds it free, run out, his own, or further off than a lease can be', () => {
    const theirs: Lease = { tab: 'b', until: 1000 };
    expect(askedBy('a', 0, null)).toEqual({ tab: 'a', until: LEASE_MS });
    expect(askedBy('a', 999, theirs)).toBe(theirs);
    expect(askedBy('a', 1000, theirs).tab).toBe('a');
    expect(askedBy('b', 500, theirs)).toEqual({ tab: 'b', until: 500 + LEASE_MS });
    // The device's clock was set back by a day: nobody waits for a day.
    expect(askedBy('a', -86_400_000, theirs).tab).toBe('a');
  });

  it('is handed on by a tab that steps back, and taken from one that is gone', async () => {
    let lease: Lease | null = null;
    const store: LeaseStore = { change: async (next) => (lease = next(lease)) };
    let now = 0;
    const due: { at: number; run: () => void }[] = [];
    const after = (ms: number, run: () => void) => {
      due.push({ at: now + ms, run });
      return () => {};
    };
    const pass = async (ms: number): Promise<void> => {
      for (const end = now + ms; now < end; now += 500) {
        for (const one of due.filter(({ at }) => at <= now)) {
          due.splice(due.indexOf(one), 1);
          one.run();
        }
        for (let i = 0; i < 5; i += 1) await Promise.resolve();
      }
    };
    const leads = { a: false, b: false };
    const a = leaseLead({ store, tab: 'a', after, wall: () => now });
    const b = leaseLead({ store, tab: 'b', after, wall: () => now });
    a.start((is) => (leads.a = is));
    b.start((is) => (leads.b = is));
    await pass(2000);
    expect(leads).toEqual({ a: true, b: false });
    a.stepBack();
    await pass(3000);
    expect(leads).toEqual({ a: false, b: true });
    // Gone without a word, as a killed tab is: somebody else's lease that nobody renews.
    lease = { tab: 'gone', until: now + LEASE_MS };
    await pass(LEASE_MS + 1500);
    expect(Number(leads.a) + Number(leads.b)).toBe(1);
  });
});
