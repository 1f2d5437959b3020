/** What a change does: everybody's times before and after. Lengths in ms. */
import type { Forecast } from '#core/plan/model.ts';
import { MINUTE_MS } from '#core/time/units.ts';

export type SpareChange = {
  readonly prep: string;
  /** Null: cannot be said. */
  readonly before: number | null;
  /** Null: cannot be said; `gone`: no longer needed. */
  readonly after: number | null | 'gone';
};
export type BehindChange = { readonly volunteer: string; readonly before: number; readonly after: number };

export type Comparison = {
  readonly spares: readonly SpareChange[];
  readonly behind: readonly BehindChange[];
  readonly lateBefore: number;
  readonly lateAfter: number;
};

/** Less than a minute is no change on a board that shows minutes. */
const WORTH_SAYING_MS = MINUTE_MS;

/** Only what changes, worst first. */
export function compare(before: Forecast, after: Forecast): Comparison {
  const preps = new Set([...Object.keys(before.preps), ...Object.keys(after.preps)]);
  const people = new Set([...Object.keys(before.hands), ...Object.keys(after.hands)]);
  return {
    spares: [...preps].flatMap((prep) => spareChange(before, after, prep) ?? []).sort(byWorst),
    behind: [...people]
      .map((volunteer) => ({
        volunteer,
        before: before.hands[volunteer]?.behindMs ?? 0,
        after: after.hands[volunteer]?.behindMs ?? 0,
      }))
      .filter((one) => Math.abs(one.after - one.before) >= WORTH_SAYING_MS)
      .sort((a, b) => b.after - a.after || b.before - a.before),
    lateBefore: late(before),
    lateAfter: late(after),
  };
}

function spareChange(before: Forecast, after: Forecast, prep: string): SpareChange | null {
  const was = before.preps[prep]?.spareMs ?? null;
  const known = after.preps[prep];
  if (!known) return { prep, before: was, after: 'gone' };
  const now = known.spareMs;
  const same = was === null || now === null ? was === now : Math.abs(now - was) < WORTH_SAYING_MS;
  return same ? null : { prep, before: was, after: now };
}

function byWorst(a: SpareChange, b: SpareChange): number {
  const rank = ({ after }: SpareChange): number =>
    after === 'gone' ? Infinity : after === null ? -Infinity : after;
  return rank(a) < rank(b) ? -1 : rank(a) > rank(b) ? 1 : 0;
}

/** Horses that will not be ready in time, or of which it cannot be said. */
function late(forecast: Forecast): number {
  return Object.values(forecast.preps).filter(({ spareMs }) => spareMs === null || spareMs < 0).length;
}
