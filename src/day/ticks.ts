/** A prep's tack list, ticked item by item. */
import type { Prep } from './board.ts';

/** The items of list `tack` that stand ticked on this prep. */
export function tickedItems(prep: Prep, tack: string): ReadonlySet<string> {
  const last = new Map(prep.ticks.filter((tick) => tick.tack === tack).map((tick) => [tick.item, tick.on]));
  return new Set([...last].flatMap(([item, on]) => (on ? [item] : [])));
}
