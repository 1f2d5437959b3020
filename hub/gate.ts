/**
 * Who is at the other end of a socket or a request, and as what that one is heard. Everything else in the hub knows only
 * this; how it is found out stands in `hub/gate/`.
 */
import type { IncomingMessage } from 'node:http';
import type { TabletPlace } from '#core/day/places.ts';

/** Somebody whose tablet is not on the hub's list. */
export type Nobody = { readonly is: 'nobody' };

/** A tablet on the hub's list. */
export type Tablet = {
  readonly is: 'tablet';
  /** Its name in ops and in the log. */
  readonly device: string;
  /** As what it is heard just now: a coordinator's screen only while a coordinator has unlocked it. */
  readonly place: TabletPlace;
  /** The coordinator who has unlocked it, by their id among the staff; null: nobody. */
  readonly by: string | null;
};

export type Who = Nobody | Tablet;

export interface Gate {
  /** Who sends this request. */
  who(request: IncomingMessage): Who;
}

/** Whether what only a coordinator may is allowed to `who`. */
export function isCoordinator(who: Who): who is Tablet {
  return who.is === 'tablet' && who.place.role === 'coordinator';
}

/** For a hub that is open to all, as the demo is: whoever asks over HTTP is heard as a coordinator. */
export const OPEN_GATE: Gate = {
  who: () => ({ is: 'tablet', device: 'open', place: { role: 'coordinator' }, by: null }),
};
