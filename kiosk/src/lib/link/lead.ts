/**
 * Which of this tablet's tabs sends the shared outbox. Each tab has its own line to the hub and draws its own board; one of
 * them leads and sends every tab's taps. A tab that is hidden lets another take over: a browser may freeze it. Two leaders
 * for a moment are harmless, since the hub answers a tap that comes twice as the first time.
 *
 * Web Locks where the browser has them: never on plain http. There a lease in IndexedDB that its holder keeps renewing.
 */

export type Lead = {
  /** Calls back when this tab begins and ceases to lead. */
  readonly start: (onChange: (leads: boolean) => void) => void;
  /** Lets another tab lead, if one is there. */
  readonly stepBack: () => void;
};

/** `until` by the device's own clock, ms: all tabs have the same. */
export type Lease = { readonly tab: string; readonly until: number };

export type LeaseStore = {
  /** In one transaction: what `next` makes of the lease that is there. */
  readonly change: (next: (lease: Lease | null) => Lease | null) => Promise<Lease | null>;
};

/** Renewed this often, */
export const BEAT_MS = 1000;
/** and lost after this long: a tab whose timers are held to one a second still keeps it. */
export const LEASE_MS = 3500;

/** The lease once `tab` has asked for it at `now`: its own when it was free, run out, or further off than a lease can be. */
export function askedBy(tab: string, now: number, lease: Lease | null): Lease {
  const isTheirs =
    lease !== null && lease.tab !== tab && lease.until > now && lease.until <= now + 2 * LEASE_MS;
  return isTheirs ? lease : { tab, until: now + LEASE_MS };
}

type LeaseParts = {
  readonly store: LeaseStore;
  readonly tab: string;
  readonly after: (ms: number, run: () => void) => () => void;
  readonly wall: () => number;
};

export function leaseLead({ store, tab, after, wall }: LeaseParts): Lead {
  let say: (leads: boolean) => void = () => {};
  let leads = false;
  let waitsUntil = 0;
  const set = (now: boolean): void => {
    if (now === leads) return;
    leads = now;
    say(now);
  };
  const beat = async (): Promise<void> => {
    if (wall() >= waitsUntil || waitsUntil - wall() > LEASE_MS) {
      try {
        const lease = await store.change((was) => askedBy(tab, wall(), was));
        set(lease?.tab === tab);
      } catch {
        // No lease to be had: better sent twice than never.
        set(true);
      }
    }
    after(BEAT_MS, () => void beat());
  };
  return {
    start: (onChange) => {
      say = onChange;
      void beat();
    },
    stepBack: () => {
      waitsUntil = wall() + 2 * BEAT_MS;
      set(false);
      void store.change((was) => (was?.tab === tab ? null : was)).catch(() => null);
    },
  };
}

const LOCK = 'aisle-board.outbox';

export function lockLead(locks: LockManager): Lead {
  let release = (): void => {};
  return {
    start: (onChange) => {
      const ask = async (): Promise<void> => {
        await locks.request(LOCK, () => {
          onChange(true);
          return new Promise<void>((done) => (release = done));
        });
        onChange(false);
        // Behind whoever else waits; at once when nobody does.
        return ask();
      };
      ask().catch(() => onChange(true));
    },
    stepBack: () => release(),
  };
}
