/** New starting points between two good schedules, or near one. */
import type { Neighbourhood } from './moves.ts';
import type { Random } from './random.ts';
import { Schedule } from './schedule.ts';

/** Shares of a relinking are drawn in thousandths. */
const MILLE = 1000;

/**
 * A schedule on the way from `a` to `b`: each operation takes the machine it has in `b` with chance `share`
 * (thousandths), and machines take their operations by start times weighed in the same share. Both orders
 * keep each job's chain, so their mean does, and no cycle can arise. Not evaluated when equal to neither.
 */
export function relink(a: Schedule, b: Schedule, share: number, random: Random): Schedule {
  const { model } = a;
  const { n, fixed } = model;
  const key = new Float64Array(n);
  for (let o = 0; o < n; o++) {
    // Rank settles equal starts the way the parent has them.
    key[o] = (MILLE - share) * (a.head[o]! + a.rank[o]! / n) + share * (b.head[o]! + b.rank[o]! / n);
    if (fixed[o] === 1) key[o] = -Infinity;
  }
  const child = new Schedule(model);
  for (const o of Array.from(key.keys()).sort((x, y) => key[x]! - key[y]! || x - y)) {
    child.append(o, (random.below(MILLE) < share ? b : a).machine[o]!);
  }
  if (!child.evaluate()) throw new Error('a relinking made a cycle');
  return child;
}

/** Moves `strength` random operations of an evaluated schedule to random places. */
export function kick(schedule: Schedule, strength: number, moves: Neighbourhood, random: Random): void {
  const { n, altStart, altMachine, fixed } = schedule.model;
  for (let i = 0; i < strength; i++) {
    const o = random.below(n);
    if (fixed[o] === 1) continue;
    const k = altMachine[altStart[o]! + random.below(altStart[o + 1]! - altStart[o]!)]!;
    if (!schedule.relocate(o, k, moves.randomPlace(schedule, o, k, random)))
      throw new Error('a kick made a cycle');
  }
}

/** Share of operations, 0 … 1, that are on different machines or follow different operations there. */
export function distance(a: Schedule, b: Schedule): number {
  const { n } = a.model;
  let differ = 0;
  for (let o = 0; o < n; o++) {
    if (a.machine[o] !== b.machine[o] || a.machinePrev[o] !== b.machinePrev[o]) differ++;
  }
  return differ / n;
}
