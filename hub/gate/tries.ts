/**
 * How often a PIN may be tried. Wrong tries in a row at one tablet make the next one wait, longer each time; wrong tries
 * anywhere fill a bucket that empties slowly, and while it is full no tablet of the aisle or the arena door takes a PIN.
 * A coordinator's own tablet still does, so that nobody can shut the coordinators out from the aisle.
 */
import { HOUR_MS, MINUTE_MS, SECOND_MS } from '#core/time/units.ts';

/** `until`: hub time in ms before which no further try counts. */
export type Tries = { readonly wrong: number; readonly until: number };

export const NO_TRIES: Tries = { wrong: 0, until: 0 };

/** A slip of a gloved finger costs nothing. */
const FREE_TRIES = 3;
const FIRST_WAIT_MS = 30 * SECOND_MS;
const LONGEST_WAIT_MS = HOUR_MS;

/** Wrong tries in a barn that are taken before all tablets on the wall wait. */
export const BARN_TRIES = 30;

/** The barn forgets one wrong try in this time. */
export const BARN_FORGETS_MS = 30 * MINUTE_MS;

/** How long the next try at this tablet must wait, in ms; 0: not at all. */
export function waitMs({ until }: Tries, now: number): number {
  // A hub's clock that was set back must not keep anybody out for days.
  return Math.min(Math.max(0, until - now), LONGEST_WAIT_MS);
}

/** After one more wrong try at this tablet. */
export function oneMore({ wrong }: Tries, now: number): Tries {
  const over = wrong + 1 - FREE_TRIES;
  const wait = over <= 0 ? 0 : Math.min(FIRST_WAIT_MS * 2 ** (over - 1), LONGEST_WAIT_MS);
  return { wrong: wrong + 1, until: now + wait };
}

/** The barn's bucket: how full it was, and when. */
export type BarnTries = { readonly level: number; readonly at: number };

export const NO_BARN_TRIES: BarnTries = { level: 0, at: 0 };

/** How full it is now. */
export function levelAt({ level, at }: BarnTries, now: number): number {
  return Math.max(0, level - Math.max(0, now - at) / BARN_FORGETS_MS);
}

/** How long tablets on the wall must wait, in ms. */
export function barnWaitMs(tries: BarnTries, now: number): number {
  return Math.max(0, Math.ceil((levelAt(tries, now) - (BARN_TRIES - 1)) * BARN_FORGETS_MS));
}

export function oneMoreInBarn(tries: BarnTries, now: number): BarnTries {
  return { level: levelAt(tries, now) + 1, at: now };
}
