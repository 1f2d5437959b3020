/** A day on which nothing is planned yet. */
import type { Day } from './board.ts';

export function emptyDay(date: string | null): Day {
  return {
    date,
    lessons: {},
    preps: {},
    hands: {},
    recent: [],
    notes: [],
    planTaken: null,
    weather: [],
    rides: {},
    help: [],
  };
}

/** Nothing was planned or done on it. */
export function isEmptyDay({ lessons, preps, hands, notes, weather, help }: Day): boolean {
  return [lessons, preps, hands, notes, weather, help].every((part) => Object.keys(part).length === 0);
}

/** At most the barn's book was copied into it: letting go of it loses nothing. */
export function isUnused(day: Day): boolean {
  const { planTaken, recent, notes } = day;
  const isAsPlanned =
    planTaken !== null && notes.length === 0 && recent.every((note) => note.op === planTaken);
  return isAsPlanned || isEmptyDay(day);
}
