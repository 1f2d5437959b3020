/** Which foot comes next in a check. */
import type { FeetOrder, Foot } from './feetOrder.ts';

/** The next foot in the barn's order that is not yet looked at, or null when all four are. */
export function nextFoot(order: FeetOrder, done: ReadonlySet<Foot>): Foot | null {
  return order.find((foot) => !done.has(foot)) ?? null;
}
