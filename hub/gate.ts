/**
 * Who is at the other end of a socket or a request, and as what that one is heard. Everything else in the hub knows only
 * this; how it is found out stands in `hub/gate/`.
 */
import type { IncomingMessage } from 'node:http';
import type { TabletPlace } from '#core/day/places.ts';
import type { Here } from '#core/wire/gate.ts';

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

/** A tablet as the room hears it. `here`: what it is told of itself; null on a hub that is open to all. */
export type Admission = Pick<Tablet, 'device' | 'place' | 'by'> & { readonly here: Here | null };

export type Coordinator = { readonly id: string; readonly name: string };

/** What the room asks of the gate. */
export interface RoomGate extends Gate {
  /** `wants`: what it says it is, which counts on a hub that is open to all. Null: it is not on the list. */
  admit(token: string | null, wants: Pick<Tablet, 'device' | 'place'>): Admission | null;
  /** How a tablet that was admitted stands now; null: it was struck off. */
  now(device: string): Admission | null;
  /** It has been heard. */
  seen(device: string): void;
  /** Somebody touched it while it was unlocked. */
  touched(device: string): void;
}

/** For a hub that is open to all, as the demo is: a tablet is what it says, and over HTTP everybody a coordinator. */
export const OPEN_GATE: RoomGate = {
  who: () => ({ is: 'tablet', device: 'open', place: { role: 'coordinator' }, by: null }),
  admit: (_token, { device, place }) => ({ device, place, by: null, here: null }),
  now: () => null,
  seen: () => {},
  touched: () => {},
};
