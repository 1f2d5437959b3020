/** Everybody connected, and how they are told. */
import type { Role } from '#core/day/places.ts';
import { packed } from '#core/wire/compact.ts';
import type { FromHub } from '#core/wire/messages.ts';
import { Session, type Link, type Live } from './session.ts';

export class Audience {
  readonly #sessions = new Set<Session>();

  join(link: Link, token: string | null): Session {
    const session = new Session(link, token);
    this.#sessions.add(session);
    return session;
  }

  leave(session: Session): void {
    session.now = { state: 'closed' };
    this.#sessions.delete(session);
  }

  say(session: Session, message: FromHub): void {
    if (session.now.state !== 'closed') session.link.send(packed(message), message.say === 'welcome');
  }

  /** Those that have said hello. */
  *live(): Iterable<{ session: Session; live: Live }> {
    for (const session of this.#sessions) {
      if (session.now.state === 'live') yield { session, live: session.now };
    }
  }

  /** Written out once a role, not once a tablet. */
  toEverybody(message: (role: Role) => FromHub): void {
    const texts = new Map<Role, string>();
    for (const { session, live } of this.live()) {
      const { role } = live.place;
      const text = texts.get(role) ?? packed(message(role));
      texts.set(role, text);
      session.link.send(text);
    }
  }

  close(code: number, reason: string): void {
    for (const session of this.#sessions) session.link.close(code, reason);
  }

  /** Connections by role; those that have not said hello yet are `waiting`. */
  get connections(): Record<Role | 'waiting', number> {
    const count = { aisle: 0, door: 0, coordinator: 0, waiting: 0 };
    for (const session of this.#sessions) count[session.role ?? 'waiting'] += 1;
    return count;
  }
}
