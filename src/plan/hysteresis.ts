/** A name on the coordinator's list of who is behind must not come and go with every refresh. */
import { own } from '../barn/basics.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Forecast, HandsForecast } from './model.ts';

/** Somebody is named once they are behind by more than this, and until they are behind by less than that. */
export const NAMED_ABOVE_MS = 2 * MINUTE_MS;
export const NAMED_UNTIL_BELOW_MS = 0.5 * MINUTE_MS;

/**
 * `next` as it is to be shown after `previous` (as it was shown; null: nothing was). Those not named have `behindMs` 0;
 * those named carry since when.
 */
export function withHysteresis(previous: Forecast | null, next: Forecast): Forecast {
  const hands = Object.entries(next.hands).map(([id, one]): [string, HandsForecast] => {
    const since = (previous && own(previous.hands, id)?.since) ?? null;
    const named = since === null ? one.behindMs > NAMED_ABOVE_MS : one.behindMs >= NAMED_UNTIL_BELOW_MS;
    return [
      id,
      named ? { ...one, since: since ?? next.asOf } : { ...one, behindMs: 0, because: null, since: null },
    ];
  });
  return { ...next, hands: Object.fromEntries(hands) };
}
