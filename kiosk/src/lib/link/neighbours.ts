/** What this tablet's tabs tell each other about their shared outbox: a tap was kept, taps were answered. */
import { Op } from '#core/day/ops.ts';
import { FromHub } from '#core/wire/messages.ts';

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

/** Messages are parsed as the hub's are: another tab may be of another build. */
export function neighboursOver(channel: Channel, on: NeighbourEvents): Neighbours {
  channel.onmessage = ({ data }) => {
    const kept = Op.safeParse(data);
    if (kept.success) return on.kept(kept.data);
    const said = FromHub.safeParse(data);
    if (said.success && said.data.say === 'answered') on.answered(said.data.answers);
  };
  const post = (message: unknown): void => {
    try {
      channel.postMessage(message);
    } catch {
      // A channel that is closed: the other tabs find it in the database when they lead.
    }
  };
  return {
    kept: (op) => post(op),
    answered: (answers) => post({ say: 'answered', answers }),
  };
}
