/** The gate put together: for a barn, with its list of tablets; or open to all, as the demo is. */
import type { IncomingMessage } from 'node:http';
import type { Board } from '#core/day/board.ts';
import type { Forgotten } from '#core/day/forget.ts';
import type { OpFact } from '#core/day/ops.ts';
import type { GateOutcome, KnownTablet, Wish } from '#core/wire/gate.ts';
import type { Endpoint } from '../endpoints.ts';
import { OPEN_GATE, type Coordinator, type RoomGate } from '../gate.ts';
import { auditIn, NO_AUDIT, type Audit } from './audit.ts';
import { gateFile, gateInMemory } from './gateFile.ts';
import { Keeper } from './keeper.ts';
import { codeRates, LIMITS, OPEN_LIMITS, type Limits } from './limits.ts';
import { pairingEndpoint } from './pairing.ts';
import { refused } from './pins.ts';
import { cookieFor } from './token.ts';
import { Wishes } from './wishes.ts';

export type GateParts = {
  /** Of the hub's data; null: kept in memory. */
  readonly folder: string | null;
  /** Hub time in ms. */
  readonly clock: () => number;
  readonly port: () => number;
  readonly board: () => Board;
  /** A fact the hub itself brings in. */
  readonly bring: (fact: OpFact) => Promise<void>;
  readonly newId: () => string;
  /** Shows a pairing code on the hub's own console; null: none is needed any more. */
  readonly showCode: (code: string | null) => void;
  /** A code that counts from the start, as if shown there. */
  readonly firstCode: string | null;
  readonly log: (line: string) => void;
};

export type SetUpGate = {
  readonly gate: RoomGate;
  readonly limits: Limits;
  readonly audit: Audit;
  readonly endpoints: readonly Endpoint[];
  readonly grant: (device: string, wish: Wish) => Promise<GateOutcome>;
  readonly tablets: () => readonly Omit<KnownTablet, 'isHere'>[];
  readonly tokenIn: (request: IncomingMessage) => string | null;
  readonly renew: (token: string | null, request: IncomingMessage) => string | null;
  /** Takes these people's PINs away, and their ids out of what is logged. On disk when this resolves. */
  readonly forget: (people: readonly Forgotten[]) => Promise<void>;
  readonly start: (changed: (device: string | null) => void) => void;
  readonly stop: () => Promise<void>;
};

/** Throws StartError when the list of tablets is damaged. */
export async function setUpGate(parts: GateParts): Promise<SetUpGate> {
  const { folder, clock, port, board, bring, newId, showCode, log } = parts;
  const store = folder === null ? gateInMemory() : gateFile(folder);
  const audit = folder === null ? NO_AUDIT : auditIn(folder, clock, log);
  const staff = (): Coordinator[] =>
    Object.values(board().barn.staff).filter(({ role }) => role === 'coordinator');
  const keeper = new Keeper({ record: await store.read(), store, audit, clock, staff, port, showCode });
  if (parts.firstCode !== null) keeper.codes.add(parts.firstCode, true);
  const newCoordinator = async (name: string): Promise<Coordinator | null> => {
    const called = (one: Coordinator): boolean => one.name.toLowerCase() === name.toLowerCase();
    const there = staff().find(called);
    if (there) return there;
    const record = { id: newId(), name, role: 'coordinator' as const };
    await bring({ kind: 'recordSaved', saved: { table: 'staff', record } });
    return staff().find(called) ?? null;
  };
  const wishes = new Wishes({ keeper, newCoordinator, staff });
  return {
    gate: keeper,
    limits: LIMITS,
    audit,
    endpoints: [pairingEndpoint({ keeper, rates: codeRates(), port })],
    grant: (device, wish) => wishes.grant(device, wish),
    tablets: () => keeper.tablets.map(({ id, name, place, seenAt }) => ({ id, name, place, seenAt })),
    tokenIn: (request) => keeper.tokenIn(request),
    renew: (token, request) =>
      token !== null && keeper.admit(token) ? cookieFor(token, port(), 'encrypted' in request.socket) : null,
    forget: (people) => keeper.forget(people),
    start: (changed) => keeper.start(changed),
    stop: () => keeper.stop(),
  };
}

/** Whoever comes is let in. */
export const EVERYBODY: SetUpGate = {
  gate: OPEN_GATE,
  limits: OPEN_LIMITS,
  audit: NO_AUDIT,
  endpoints: [],
  grant: async () => refused('notAllowedHere'),
  tablets: () => [],
  tokenIn: () => null,
  renew: () => null,
  forget: async () => {},
  start: () => {},
  stop: async () => {},
};
