/** One tablet's connection, as a union per state: each state has only the fields that mean something in it. */
import type { Role, TabletPlace } from '#core/day/places.ts';
import type { Here } from '#core/wire/gate.ts';

/** What the room needs of a socket. Neither call throws, whatever state the socket is in. */
export type Link = {
  /** `isLong`: worth the time to pack it. */
  send(text: string, isLong?: boolean): void;
  close(code: number, reason: string): void;
};

export type Waiting = { readonly state: 'waiting' };
export type Live = {
  readonly state: 'live';
  readonly device: string;
  /** As what it is heard. */
  readonly place: TabletPlace;
  /** The coordinator who has unlocked it. */
  readonly by: string | null;
  /** What it was told of itself; null on a hub that is open to all. */
  readonly here: Here | null;
};
export type Closed = { readonly state: 'closed' };

export class Session {
  readonly link: Link;
  /** What it showed when it connected. */
  readonly token: string | null;
  now: Waiting | Live | Closed = { state: 'waiting' };
  refusals = 0;
  /** Taps of it were not taken because nothing could be written down: it is to be asked for them again. */
  isOwed = false;

  constructor(link: Link, token: string | null) {
    this.link = link;
    this.token = token;
  }

  /** The role it speaks in; null before hello and after the end. */
  get role(): Role | null {
    return this.now.state === 'live' ? this.now.place.role : null;
  }
}

/** WebSocket close codes, RFC 6455 §7.4.1. */
export const CLOSE = { goingAway: 1001, policy: 1008 } as const;
