/**
 * Counting what called for attention, tapped or not. Findings, calls for a hand and declined taps stand in the journal by
 * themselves; what comes of time passing is looked for by the hub and written down when it begins to call.
 */
import { MINUTE_MS } from '../../time/units.ts';
import type { Alert } from './alert.ts';
import type { Raised } from './record.ts';

/** What stood at the last looks: when each was seen last, in barn ms. */
export type Standing = ReadonlyMap<string, number>;

/** What has not called for so long calls anew when it comes back; sooner it is the same call. Common practice, no source. */
export const ANEW_AFTER_MS = 10 * MINUTE_MS;

/** One look at barn time `now` in ms: what stands after it, and what of that has begun to call since. */
export function look(
  before: Standing,
  alerts: readonly Alert[],
  now: number,
): { standing: Standing; raised: Raised[] } {
  const named = new Map(
    alerts.flatMap((alert): [string, Raised][] => {
      const one = raisedBy(alert);
      return one ? [[nameOf(one), one]] : [];
    }),
  );
  const kept = [...before].filter(([, seen]) => now - seen < ANEW_AFTER_MS);
  return {
    standing: new Map([...kept, ...[...named.keys()].map((name): [string, number] => [name, now])]),
    raised: [...named].flatMap(([name, one]) =>
      now - (before.get(name) ?? -Infinity) >= ANEW_AFTER_MS ? one : [],
    ),
  };
}

/** As standing at `now`: what was raised before the hub was started again is not raised twice. */
export function standingSince(raised: readonly Raised[], now: number): Standing {
  return new Map(raised.map((one) => [nameOf(one), now]));
}

function nameOf({ alert, about }: Raised): string {
  return `${alert}:${about}`;
}

function raisedBy(alert: Alert): Raised | null {
  switch (alert.kind) {
    case 'feetBy':
      return { alert: 'feetBy', about: alert.prep };
    case 'openRole':
      return { alert: 'openRole', about: alert.lesson };
    case 'behind':
      return alert.piece && { alert: 'behind', about: alert.piece.prep };
    case 'notKept':
    case 'damage':
      return { alert: alert.kind, about: alert.id };
    case 'away':
    case 'notDone':
    case 'callNow':
    case 'offToday':
    case 'wait':
    case 'carryOn':
    case 'hand':
    case 'unsure':
    case 'answered':
      return null;
  }
}
