/** A barn with its gate, one tablet of each kind, and somebody with no tablet at all. */
import type { Role, TabletPlace } from '#core/day/places.ts';
import { openHub, type Hub, type HubOptions } from '../../../hub/main.ts';
import { tempFolder } from '../hubProcess.ts';
import { codeFrom, connect, firstCoordinator, hung, pair, type Paired } from '../pairing.ts';

export const PLACES: Record<Role, TabletPlace> = {
  aisle: { role: 'aisle', stalls: [] },
  door: { role: 'door', arena: null, metres: 4 },
  coordinator: { role: 'coordinator' },
};

/** A hub in this process whose clock is moved by hand. */
export type ClockedHub = {
  readonly hub: Hub;
  readonly folder: string;
  /** The code its console showed last. */
  readonly code: () => Promise<string>;
  /** Everything it logged. */
  readonly logged: readonly string[];
  /** Moves its clock on. */
  readonly pass: (ms: number) => void;
  /** Ends it and opens it again in the same folder, at the same time. */
  readonly again: () => Promise<ClockedHub>;
  readonly close: () => Promise<void>;
};

type Kept = { readonly folder: string; readonly remove: () => Promise<void>; readonly at: number };

export async function openClocked(more: Partial<HubOptions> = {}, kept?: Kept): Promise<ClockedHub> {
  const { folder, remove, at } = kept ?? (await freshFolder());
  let now = at;
  let shown: string | null = null;
  const logged: string[] = [];
  const hub = await openHub({
    port: 0,
    host: '127.0.0.1',
    folder,
    clock: () => now,
    showCode: (code) => (shown = code),
    log: (line) => logged.push(line),
    ...more,
  });
  return {
    hub,
    folder,
    code: async () => {
      while (shown === null) await new Promise((next) => setTimeout(next, 5));
      return shown;
    },
    logged,
    pass: (ms) => (now += ms),
    again: async () => {
      await hub.close();
      return openClocked(more, { folder, remove, at: now });
    },
    close: async () => {
      await hub.close();
      await remove();
    },
  };
}

async function freshFolder(): Promise<Kept> {
  const { path, remove } = await tempFolder();
  return { folder: path, remove, at: Date.now() };
}

/** Who may stand at a tablet, and with which. */
export type People = {
  /** Heard as a coordinator: unlocked. */
  readonly coordinator: Paired & { readonly by: string };
  readonly aisle: Paired;
  readonly door: Paired;
  /** A coordinator's tablet that nobody has unlocked. */
  readonly locked: Paired;
  /** Paired, and nobody has said where it hangs. */
  readonly unhung: Paired;
};

export async function people(port: number, code: string): Promise<People> {
  const coordinator = await firstCoordinator(port, code);
  const next = (): Promise<string> => codeFrom(coordinator.client);
  return {
    coordinator,
    aisle: await hung(port, await next(), PLACES.aisle),
    door: await hung(port, await next(), PLACES.door),
    locked: await hung(port, await next(), PLACES.coordinator),
    unhung: await connect(port, await pair(port, await next())),
  };
}
