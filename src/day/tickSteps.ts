/** What a tap makes of a prep’s tack list. */
import type { Day, Prep, Tick } from './board.ts';
import { KEPT_TICKS } from './kept.ts';
import type { OpFact } from './ops.ts';
import type { Stamp } from './steps.ts';

type ItemsTicked = Extract<OpFact, { kind: 'itemsTicked' }>;

export function tickItems(prep: Prep, { tack, items, on }: ItemsTicked, stamp: Stamp): Prep {
  if (prep.ticks.some((tick) => tick.op === stamp.id)) return prep;
  const at = Math.min(stamp.tappedAt, stamp.at);
  const fresh = [...new Set(items)].map((item): Tick => ({ op: stamp.id, tack, item, on, by: stamp.by, at }));
  const all = [...prep.ticks, ...fresh].sort(
    (a, b) => a.at - b.at || (a.op < b.op ? -1 : a.op > b.op ? 1 : a.item < b.item ? -1 : 1),
  );
  const kept = all.filter(
    (tick, i) => all.slice(i + 1).filter((later) => isSame(later, tick)).length < KEPT_TICKS,
  );
  return { ...prep, ticks: kept };
}

export function dropTicks(day: Day, op: string): Day {
  const hit = Object.values(day.preps).filter((prep) => prep.ticks.some((tick) => tick.op === op));
  if (hit.length === 0) return day;
  const without = hit.map((prep) => [
    prep.id,
    { ...prep, ticks: prep.ticks.filter((tick) => tick.op !== op) },
  ]);
  return { ...day, preps: { ...day.preps, ...Object.fromEntries(without) } };
}

function isSame(a: Tick, b: Tick): boolean {
  return a.tack === b.tack && a.item === b.item;
}
