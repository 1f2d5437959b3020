/** What tablets and hub agree on about codes, PINs and locking. */
import type { TabletPlace } from '../day/places.ts';

/** Digits of a PIN. */
export const PIN_DIGITS = { least: 6, most: 12 } as const;

/** Digits of a pairing code. */
export const CODE_DIGITS = 6;

/** A tablet nobody touches is locked again after this long, in ms. */
export const UNTOUCHED_MS = 120_000;

/** As what a tablet that nobody has unlocked is heard: a coordinator's own as one of the aisle, which may do least. */
export function restingPlace(home: TabletPlace | null): TabletPlace {
  return home === null || home.role === 'coordinator' ? { role: 'aisle', stalls: [] } : home;
}
