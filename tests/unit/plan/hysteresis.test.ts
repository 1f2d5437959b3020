/** Names come and go calmly. */
import { describe, expect, test } from 'vitest';
import { forecast } from '#core/plan/forecast.ts';
import { NAMED_ABOVE_MS, NAMED_UNTIL_BELOW_MS, withHysteresis } from '#core/plan/hysteresis.ts';
import { planInput } from '#core/plan/input.ts';
import type { Forecast } from '#core/plan/model.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { smallBoard } from '../../properties/day-arbitraries.ts';
import { minute } from './forecastInputs.ts';

const base = forecast(planInput(smallBoard(), minute(0)));

function raw(asOf: number, behindMs: number): Forecast {
  const ada = base.hands['ada'];
  if (!ada) throw new Error('no ada');
  return {
    ...base,
    asOf,
    hands: { ada: { ...ada, behindMs, because: behindMs > 0 ? 'fern.1:tack' : null } },
  };
}

function play(lateness: readonly number[]): { named: boolean[]; since: (number | null)[]; last: Forecast } {
  let shown: Forecast | null = null;
  const named: boolean[] = [];
  const since: (number | null)[] = [];
  lateness.forEach((ms, i) => {
    shown = withHysteresis(shown, raw(minute(i), ms));
    named.push((shown.hands['ada']?.behindMs ?? 0) > 0);
    since.push(shown.hands['ada']?.since ?? null);
  });
  return { named, since, last: shown ?? base };
}

describe('a name on the list of who is behind', () => {
  test('comes above the upper bound, stays in between, goes below the lower', () => {
    const between = (NAMED_ABOVE_MS + NAMED_UNTIL_BELOW_MS) / 2;
    const { named, since } = play([between, NAMED_ABOVE_MS + 1, between, NAMED_UNTIL_BELOW_MS - 1, between]);
    expect(named).toEqual([false, true, true, false, false]);
    expect(since).toEqual([null, minute(1), minute(1), null, null]);
  });

  test('does not flicker where the lateness is noisy', () => {
    const random = seededRandom(5);
    // Half a minute of noise either way about a lateness that rises over the bound and falls again.
    const noisy = Array.from({ length: 200 }, (_, i) => {
      const slow = 2.5 * MINUTE_MS * Math.sin((Math.PI * i) / 199);
      return Math.max(0, Math.round(slow + (random.below(60) - 30) * 1000));
    });
    const changes = (named: readonly boolean[]): number =>
      named.filter((one, i) => i > 0 && one !== named[i - 1]).length;
    const plain = noisy.map((ms) => ms > NAMED_ABOVE_MS);
    expect(changes(plain)).toBeGreaterThan(6);
    expect(changes(play(noisy).named)).toBe(2);
  });

  test('carries no cause once it is gone', () => {
    expect(play([3 * MINUTE_MS, 0]).last.hands['ada']).toMatchObject({
      behindMs: 0,
      because: null,
      since: null,
    });
  });
});
