/** Where tablets come in: each as what the gate lets it in, and anew when that changes. */
import type { GateOutcome, KnownTablet, Wish } from '#core/wire/gate.ts';
import type { Audience } from './audience.ts';
import type { Admission, RoomGate } from './gate.ts';
import { CLOSE, type Live, type Session } from './session.ts';
import type { Hello } from './understand.ts';

/** What a tablet has already, and what it waits for. */
export type Has = Pick<Hello, 'since' | 'open'>;

export type EntranceParts = {
  readonly gate: RoomGate;
  readonly audience: Audience;
  /** Never rejects. */
  readonly grant: (device: string, wish: Wish) => Promise<GateOutcome>;
  /** Every tablet on the list. */
  readonly tablets: () => readonly Omit<KnownTablet, 'isHere'>[];
  /** Tells a tablet all there is, or what it has not got. */
  readonly welcome: (session: Session, live: Live, has: Has) => void;
};

export class Entrance {
  readonly #parts: EntranceParts;

  constructor(parts: EntranceParts) {
    this.#parts = parts;
  }

  /** False: the gate does not let it in. */
  comeIn(session: Session, hello: Hello): boolean {
    const { gate, welcome } = this.#parts;
    const admission = gate.admit(session.token, hello);
    if (!admission) return false;
    session.now = liveAs(admission);
    gate.seen(admission.device);
    welcome(session, session.now, hello);
    this.tellTablets();
    return true;
  }

  /** After a tablet's end of the connection. */
  gone(now: Session['now']): void {
    if (now.state !== 'live') return;
    this.#parts.gate.seen(now.device);
    this.tellTablets();
  }

  /** As what `device` is heard may have changed; null: any of them. */
  changed(device: string | null): void {
    const { gate, audience } = this.#parts;
    for (const { session, live } of audience.live()) {
      if (live.here === null || (device !== null && live.device !== device)) continue;
      this.#standAnew(session, live, gate.now(live.device));
    }
    this.tellTablets();
  }

  /** As what it is heard at this very moment: an unlocked time that is over counts no longer. Null: not at all. */
  standing(session: Session): Live | null {
    if (session.now.state !== 'live' || session.now.here === null) return liveOnly(session);
    this.#standAnew(session, session.now, this.#parts.gate.now(session.now.device));
    return liveOnly(session);
  }

  async answer(session: Session, live: Live, ask: string, wish: Wish): Promise<void> {
    const outcome = await this.#parts.grant(live.device, wish);
    this.#parts.audience.say(session, { say: 'gateAnswer', ask, outcome });
  }

  /** Coordinators see which tablets there are. */
  tellTablets(): void {
    const { audience, tablets } = this.#parts;
    const coordinators = [...audience.live()].filter(
      ({ live }) => live.here !== null && live.place.role === 'coordinator',
    );
    if (coordinators.length === 0) return;
    const here = new Set([...audience.live()].map(({ live }) => live.device));
    const known = tablets().map((one) => ({ ...one, isHere: here.has(one.id) }));
    for (const { session } of coordinators) audience.say(session, { say: 'tabletsKnown', tablets: known });
  }

  #standAnew(session: Session, before: Live, admission: Admission | null): void {
    if (!admission) {
      session.now = { state: 'closed' };
      session.link.close(CLOSE.policy, 'struck off');
    } else if (JSON.stringify(before.here) !== JSON.stringify(admission.here)) {
      session.now = liveAs(admission);
      this.#parts.welcome(session, session.now, { since: null });
    }
  }
}

function liveOnly({ now }: Session): Live | null {
  return now.state === 'live' ? now : null;
}

function liveAs({ device, place, by, here }: Admission): Live {
  return { state: 'live', device, place, by, here };
}
