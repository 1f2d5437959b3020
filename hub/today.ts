/** Opens each new day on the board when the barn's calendar turns, with what the barn's book says of it. */
import type { Board } from '#core/day/board.ts';
import { isUnused } from '#core/day/emptyDay.ts';
import { planOf } from '#core/day/fromBook.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import type { OpFact } from '#core/day/ops.ts';

/** How often the calendar is looked at: a day opens at most this much after midnight, also after the hub slept. */
const LOOK_EVERY_MS = 10_000;

/**
 * A clock that was just set may be set again: a day is not left on its word alone. Long enough for a computer that finds
 * its network after the hub has started; no source.
 */
export const STEADY_MS = 2 * 60_000;

export type TodayParts = {
  readonly board: () => Board;
  readonly barnNow: () => number;
  /** How long the clock has gone without a jump, in ms. */
  readonly steadyForMs: () => number;
  readonly bring: (fact: OpFact) => Promise<void>;
};

/**
 * The fact that opens today, or null when it is open. A clock that lies behind the open day changes nothing, unless that
 * day holds nothing: then a clock that was ahead has opened it, and the hub goes back.
 */
export function dayToOpen({ barn, day }: Board, barnNow: number): OpFact | null {
  const { date } = wallTimeAt(barnNow, barn.zone);
  if (day.date === date) return null;
  const isAhead = day.date !== null && day.date > date;
  return isAhead && !isUnused(day) ? null : { kind: 'dayOpened', date };
}

/** The fact that copies the barn's book into the day of `date`; null when it is not open, or the book says nothing of it. */
function planFor({ barn, day }: Board, date: string): OpFact | null {
  if (day.date !== date) return null;
  const plan = planOf(barn, date);
  return plan.lessons.length + plan.people.length > 0 ? plan : null;
}

/** Opens today, then each day that comes. The answer stops it. */
export async function keepToday(parts: TodayParts): Promise<() => void> {
  const { board, barnNow, steadyForMs, bring } = parts;
  let busy = false;
  const look = async (): Promise<void> => {
    const fact = dayToOpen(board(), barnNow());
    const isHasty = board().day.date !== null && steadyForMs() < STEADY_MS;
    if (!fact || busy || isHasty) return;
    busy = true;
    await open(fact).finally(() => (busy = false));
  };
  const open = async (fact: OpFact): Promise<void> => {
    await bring(fact);
    const plan = fact.kind === 'dayOpened' ? planFor(board(), fact.date) : null;
    if (plan) await bring(plan);
  };
  await look();
  const timer = setInterval(() => void look(), LOOK_EVERY_MS);
  return () => clearInterval(timer);
}
