/** What this tablet's tabs tell each other about their shared outbox: a tap was kept, taps were answered. */
import type { Op } from '#core/day/ops.ts';
import type { FromHub } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';

export type Answers = Extract<FromHub, { say: 'answered' }>['answers'];

export type NeighbourEvents = {
  readonly kept: (op: Op) => void;
  readonly answered: (answers: Answers) => void;
};

export type Neighbours = {
  readonly kept: (op: Op) => void;
  readonly answered: (answers: Answers) => void;
};

/** A channel as `BroadcastChannel` is one. */
export type Channel = {
  postMessage: (message: unknown) => void;
  onmessage: ((event: MessageEvent<unknown>) => void) | null;
};

/** Between tabs of one tablet. */
type Said = { readonly protocol: number } & ({ readonly kept: Op } | { readonly answers: Answers });

/** What tabs of another protocol say is left out: what it was about is found in the database. */
export function neighboursOver(channel: Channel, on: NeighbourEvents): Neighbours {
  channel.onmessage = ({ data }) => {
    if (!isSaid(data)) return;
    if ('kept' in data) on.kept(data.kept);
    else on.answered(data.answers);
  };
  const post = (message: Said): void => {
    try {
      channel.postMessage(message);
    } catch {
      // A channel that is closed: the other tabs find it in the database when they lead.
    }
  };
  return {
    kept: (kept) => post({ protocol: PROTOCOL, kept }),
    answered: (answers) => post({ protocol: PROTOCOL, answers }),
  };
}

function isSaid(data: unknown): data is Said {
  if (typeof data !== 'object' || data === null || !('protocol' in data) || data.protocol !== PROTOCOL)
    return false;
  return ('kept' in data && isOp(data.kept)) || ('answers' in data && Array.isArray(data.answers));
}

/** A tap as a page of this protocol or an earlier one keeps it. The hub parses all of it before it counts. */
export function isOp(data: unknown): data is Op {
  if (typeof data !== 'object' || data === null) return false;
  const { id, device, by, tappedAt, fact } = data as Partial<Record<keyof Op, unknown>>;
  return (
    typeof id === 'string' &&
    typeof device === 'string' &&
    (by === null || typeof by === 'string') &&
    typeof tappedAt === 'number' &&
    typeof fact === 'object' &&
    fact !== null &&
    'kind' in fact
  );
}
